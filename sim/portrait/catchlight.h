// Lights mirrored in the eyes: where the camera sees them, how large, and what hides them.
//
// The cornea is a sphere of 7.9 mm about a centre behind its front (anatomy: 7.8 mm). A point of it
// mirrors a place where its normal halves the angle between the ways to the camera and to the
// place. A convex mirror of radius r shows a thing of width w at a distance d, both much larger
// than r, w r / (2 d) wide (textbook optics, mirror of focal length r/2).
#pragma once

#include "sim/light/emitter.h"
#include "sim/subject/subject.h"
#include "sim/transport/ray_scene.h"

#include <span>
#include <string>
#include <vector>

namespace keystead {

inline constexpr double cornea_radius_m = 0.0079;
/// The cornea is about 11.7 mm across (anatomy); beyond that the white of the eye mirrors dully.
inline constexpr double cornea_half_width_m = 0.00585;

struct Catchlight {
    std::string light;       ///< id
    double clock = 12.0;     ///< hours about the pupil's middle as the picture shows it, 0..12
    Vec2 from_pupil_mm{0.0}; ///< middle of what is seen: to the right and up in the picture
    Vec2 size_mm{0.0};       ///< across and up in the picture
    double seen_share = 0.0; ///< of the face of the light; lids, brow, nose or gear hide the rest
    const char* shape = "";  ///< round, ring, square, strip, eight-sided
};

/// What a light's face looks like in an eye.
const char* shape_word(const Emitter& emitter);

/// Nearest point of a sphere at which light from `place_m` is mirrored to `eye_m`, both outside.
Vec3 mirror_point(const Vec3& centre_m, double radius_m, const Vec3& place_m, const Vec3& eye_m);

/// Lights (those that are on) in one eye, largest first. `camera_right`, `camera_up`: the picture's
/// own axes. A light of which less than a twentieth is seen is left out.
std::vector<Catchlight> find_catchlights(const Vec3& pupil_m, const Vec3& eyeball_m,
                                         const Vec3& camera_m, const Vec3& camera_right,
                                         const Vec3& camera_up, std::span<const Emitter> emitters,
                                         const RayScene& rays);

} // namespace keystead
