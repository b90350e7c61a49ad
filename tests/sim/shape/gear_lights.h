// Lights put together from the catalogue, for tests of their meshes.
#pragma once

#include "sim/shape/gear_parts.h"

#include <string>
#include <vector>

namespace gear_lights {

struct Built {
    keystead::Light light;
    keystead::SupportPose pose;
    keystead::Emitter emitter;
    std::vector<keystead::ScenePart> parts;
};

/// Poses and builds `light` aimed at a face 1.5 m above the origin, or along its own angles.
Built build(const keystead::Light& light);

/// That support and modifier of the catalogue with a 400 W·s head; a bag on a leg if `bag_kg` > 0.
keystead::Light made_of(const std::string& support, const std::string& modifier,
                        double bag_kg = 6.8);

} // namespace gear_lights
