// What a path meets: the surface as the shared reflection text takes it.
#pragma once

#include "sim/light/reflection_text.h"
#include "sim/shape/scene.h"

namespace keystead::reference {

using Surface = reflection_float::Surface;

/// A hit as packets give it.
struct Met {
    std::uint32_t triangle = 0;
    float u = 0.0F, v = 0.0F;
};

/// Surface of `part` where a ray along unit `direction` meets it, turned to where it came from.
Surface surface_at(const ScenePart& part, const Met& met, const glm::vec3& direction);

/// Which way on: a scrim is crossed as often as its share of what leaves it. Moves the surface to
/// the far side then and makes it a matt one of what comes through. `dice` 0..1. Returns what the
/// path's share is to be multiplied by.
float choose_side(Surface& surface, float transmission, float dice);

} // namespace keystead::reference
