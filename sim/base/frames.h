// Directions and rotations of the room and of the head.
//
// Room frame: right-handed, Y up, origin on the floor under the subject, +Z from the subject to the
// camera, +X to camera right. Azimuth is measured about Y from +Z toward +X, elevation up from the
// horizontal. Head frame: x to the subject's left (camera right when facing the camera), y up the
// face, z out of the nose.
#pragma once

#include "sim/base/vec.h"

namespace keystead {

/// A direction as two angles, degrees.
struct Angles {
    double azimuth_deg = 0.0;   ///< -180..180, 0 = +Z, positive toward +X
    double elevation_deg = 0.0; ///< -90..90, positive up
};

/// Unit vector of the given azimuth and elevation.
Vec3 direction_from(Angles angles);

/// Azimuth and elevation of a non-zero vector of any length.
Angles angles_of(const Vec3& direction);

/// Rotation that takes head-frame vectors to the room: turn positive = nose toward camera right,
/// nod positive = chin up, roll positive = top of the head toward camera right.
/// Applied roll first, then nod, then turn.
Mat3 head_rotation(double turn_deg, double nod_deg, double roll_deg);

/// A right-handed frame whose third column is `forward` (unit) and whose second column is as
/// upright as possible: columns right, up, forward with right = up x forward.
Mat3 upright_frame(const Vec3& forward);

/// Angle wrapped into -180..180 degrees.
double wrapped_deg(double angle_deg);

} // namespace keystead
