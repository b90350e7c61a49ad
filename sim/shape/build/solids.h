// Closed solids from which the gear is put together. All return welded meshes without normals
// (see finish.h), counter-clockwise seen from outside.
#pragma once

#include "sim/base/mesh.h"
#include "sim/shape/build/frame.h"

#include <vector>

namespace keystead::build {

/// Turns a profile about the frame's z axis. `profile` holds (radius, height along z); walked with
/// the outside on its right, that is upward on an outer wall. A radius of zero is a pole. With
/// `ring` the profile's last point joins its first (a torus-like solid).
Mesh lathe(const Frame& frame, const std::vector<Vec2>& profile, int sides, bool ring = false);

/// A straight round bar with flat ends, tapering from one radius to the other.
Mesh bar(const Vec3& from_m, const Vec3& to_m, double radius_m, double end_radius_m, int sides);
inline Mesh bar(const Vec3& from_m, const Vec3& to_m, double radius_m, int sides) {
    return bar(from_m, to_m, radius_m, radius_m, sides);
}

/// A short cylinder centred on `centre_m` with chamfered rims.
Mesh drum(const Vec3& centre_m, const Vec3& axis, double radius_m, double length_m, int sides,
          double chamfer_m = 0.0);

/// An ellipsoid-like ball.
Mesh ball(const Frame& frame, double radius_m, int sides);

/// A box with the given half sizes along the frame's axes, centred on its origin.
Mesh box(const Frame& frame, const Vec3& half_m);

/// The same with all edges cut at 45 degrees.
Mesh chamfered_box(const Frame& frame, const Vec3& half_m, double chamfer_m);

/// A convex polygon (counter-clockwise in the frame's x, y) from z = 0 to z = thickness.
Mesh extruded(const Frame& frame, const std::vector<Vec2>& convex_polygon, double thickness_m);

} // namespace keystead::build
