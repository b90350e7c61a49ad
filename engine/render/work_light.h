// The outside view's work light: a soft ceiling panel that lets one see the room. Never measured.
#pragma once

#include "sim/light/emitter.h"
#include "sim/set/set.h"

namespace keystead {

/// Level on the floor side of the set, in stops below what the picture is exposed for: low enough
/// that the set's own lights still rule, high enough that stands can be told from the wall.
inline constexpr double work_light_stops_below = 0.8;
/// Share of its light that comes back from the walls, as irradiance from everywhere.
inline constexpr double work_light_ambient_share = 0.45;

/// A panel of 2.2 x 3.2 m (or what the room has) in the middle of the ceiling, facing down.
Emitter make_work_light(const Room& room);

/// Irradiance per unit exitance 1.2 m above the floor, facing up, under its middle.
double work_light_factor(const Emitter& light);

/// What a layer of `samples` samples of it counts for: as bright on screen whatever the exposure,
/// since it is there to see by.
glm::vec3 work_light_weight(const Emitter& light, double exposure, int samples);

} // namespace keystead
