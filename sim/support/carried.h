// A light carried along with something that turns, and what keeps its support from it: shared by
// whatever moves lamps round a face.
#pragma once

#include "sim/support/pose.h"

#include <string>

namespace keystead {

/// A light, and how it would hang.
struct CarriedLight {
    Light light;
    SupportPose pose;
};

/// Azimuth by which a horizontal look along `way` changes; none where it has no horizontal part.
double yaw_deg(const Mat3& turn, const Vec3& way);

/// Where the light is to look once `turn` about `pivot_m` has carried it: a landmark of the head
/// stays, a point is carried too, all else becomes the direction of `beam`.
void carry_aim(Aim& aim, const Mat3& turn, const Vec3& pivot_m, const Vec3& beam);

/// What column or room has against it; empty where nothing does. The room's walls, floor and
/// ceiling count for feet, arm and the modifier's edges.
std::string broken_limit(const CarriedLight& carried, const Room& room);

} // namespace keystead
