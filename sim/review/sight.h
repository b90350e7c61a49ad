// What the camera sees: rays through its frame.
#pragma once

#include "sim/studio/studio.h"

#include <optional>
#include <vector>

namespace keystead {

/// The camera's frame as axes and tangents of its half field (whole sensor, pinhole).
struct Sight {
    Vec3 eye_m{0.0};
    Vec3 right{1.0, 0.0, 0.0}, up{0.0, 1.0, 0.0}, ahead{0.0, 0.0, -1.0};
    double tan_half_width = 0.2, tan_half_height = 0.2;
};
Sight sight_of(const Camera& camera);

/// Unit direction through frame coordinates -1..1, x to the right, y up.
Vec3 ray_through(const Sight& sight, double x, double y);

/// Frame coordinates of a point; empty behind the camera.
std::optional<Vec2> frame_point(const Sight& sight, const Vec3& point_m);

/// First thing the camera sees along a unit direction, its own body left out.
struct Seen {
    const ScenePart* part = nullptr;
    RayHit hit;
    Vec3 point_m{0.0};
    Vec3 normal{0.0}; ///< geometric, toward the camera
};
std::optional<Seen> see(const Studio& studio, const Sight& sight, const Vec3& direction);

} // namespace keystead
