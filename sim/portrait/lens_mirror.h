// Spectacle lenses as mirrors: which directions a lens shows the camera, and when a light is among
// them. The front surface is part of a sphere (LensSurface); what it mirrors toward a camera far
// away spreads by twice the angle between its normals (law of reflection).
#pragma once

#include "sim/base/frames.h"
#include "sim/light/emitter.h"
#include "sim/subject/subject.h"

#include <vector>

namespace keystead {

/// A place of a lens and where the camera, looking there, is sent on to.
struct LensRay {
    Vec3 from_m{0.0};
    Vec3 direction{0.0, 0.0, 1.0}; ///< unit, away from the lens
    Vec3 normal{0.0, 0.0, 1.0};
    bool inner = true; ///< one of the even grid; the others stand along the edge
};

/// An even grid over the lens and its edge; empty for a lens seen from behind.
std::vector<LensRay> lens_rays(const LensSurface& lens, const Vec3& camera_m);

/// The lens turned about its own middle so that its normal points `tilt_deg` further down.
LensSurface tipped(const LensSurface& lens, const Vec3& head_left, double tilt_deg);

/// What the middle mirrors, and how far curvature widens it across and up: half the angle between
/// what the ends of its middle lines mirror.
struct LensSpread {
    Vec3 middle{0.0, 0.0, 1.0}; ///< unit
    double half_across_deg = 0.0, half_up_deg = 0.0;
};
LensSpread lens_spread(const LensSurface& lens, const Vec3& camera_m);

/// Does any of the rays meet the shining side of the face? Nothing is in the way.
bool shows(const std::vector<LensRay>& rays, const Emitter& face);

/// The face carried round `centre_m` on a circle, about a unit axis.
Emitter carried(Emitter face, const Vec3& centre_m, const Vec3& axis, double angle_deg);

/// The least angle about the axis at which it no longer shows; negative where `most_deg` is too
/// little.
double clear_angle_deg(const std::vector<LensRay>& rays, const Emitter& face, const Vec3& centre_m,
                       const Vec3& axis, double most_deg = 60.0);

} // namespace keystead
