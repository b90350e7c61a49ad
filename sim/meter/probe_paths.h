// Where light paths from a receptor go, and what each light sends to the places they reach: kept
// from edit to edit, so that only what an edit touched is traced again.
#pragma once

#include "sim/light/meter.h"
#include "sim/meter/bounce.h"
#include "sim/studio/studio.h"
#include "sim/transport/scene_change.h"

#include <cstdint>
#include <span>
#include <vector>

namespace keystead {

/// A place that a path reached.
struct PathPlace {
    glm::vec3 from_m{0.0F}, position_m{0.0F}, normal{0.0F};
    float silver = -1.0F; ///< roughness of a silver panel, negative on all else
    /// What the receptor gets for an irradiance of 1 there; 0 where it is not counted or the path
    /// left the room.
    float share = 0.0F;
    std::uint32_t path = 0, bounce = 0;
};

/// What a light sends to such a place, for an exitance of 1.
struct PlaceLight {
    glm::vec3 light_m{0.0F}; ///< from this place of its face
    float offered = 0.0F;    ///< irradiance if nothing is in the way
    float arrives = 0.0F;
};

struct ProbePaths {
    std::vector<PathPlace> places;                ///< path by path
    std::vector<std::uint64_t> lights;            ///< keys of the lights asked
    std::vector<std::vector<PlaceLight>> columns; ///< by light, then by place
};

/// Paths of a probe; `lights` are keys of the studio's emitters. What `before` (may be null) holds
/// is taken over where nothing in `changed` comes near it and the light's key is the same; the
/// result is that of tracing everything.
ProbePaths trace_probe(const Studio& studio, const Probe& probe, const BounceOptions& options,
                       std::span<const std::uint64_t> lights, const ProbePaths* before,
                       const ChangedPlaces& changed);

/// What each light gives the probe so, for an exitance of 1.
std::vector<double> light_along(const ProbePaths& paths);

} // namespace keystead
