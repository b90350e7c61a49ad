// Solids drawn along a path: cables, bent legs, handles, bags. Welded, without normals.
#pragma once

#include "sim/base/mesh.h"
#include "sim/shape/build/frame.h"

#include <vector>

namespace keystead::build {

/// A smooth curve through the points (no two neighbours alike), `steps` pieces between neighbours.
std::vector<Vec3> smooth_path(const std::vector<Vec3>& points_m, int steps);

/// Joins closed rings of equally many points, each counter-clockwise seen against the direction of
/// travel, and closes both ends with a fan about the ring's middle.
Mesh joined(const std::vector<std::vector<Vec3>>& rings_m);

/// A round rod along the path with flat ends. The section is carried along without twisting.
Mesh rod(const std::vector<Vec3>& path_m, double radius_m, int sides);

/// A station of a loft: the outline is placed in the frame's x, y, scaled.
struct Station {
    Frame frame;
    Vec2 scale{1.0};
};

/// Joins the same outline (counter-clockwise, seen against the direction of travel along z) from
/// station to station and closes both ends with a fan about the station's origin.
Mesh loft(const std::vector<Station>& stations, const std::vector<Vec2>& outline);

/// A strip of rectangular section along a path: `width_m` along `across` (constant), the rest
/// thick.
Mesh strap(const std::vector<Vec3>& path_m, const Vec3& across, double width_m, double thickness_m);

} // namespace keystead::build
