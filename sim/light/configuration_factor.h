// Configuration factors of Lambertian faces in closed form: what share F of a face's exitance M
// arrives at a small receptor, E = M F.
//
// Closed forms after Siegel and Howell, Thermal Radiation Heat Transfer (also in Howell's catalogue
// of configuration factors). Nothing shades; every part of the face shines toward the receptor.
#pragma once

#include "sim/base/vec.h"

#include <span>
#include <vector>

namespace keystead {

/// Disc of `radius_m`, receptor on its axis at `distance_m`, facing it: r²/(r² + d²).
double disc_on_axis(double radius_m, double distance_m);

/// Disc, receptor parallel to it, `offset_m` off the axis.
double disc_offset_parallel(double radius_m, double distance_m, double offset_m);

/// Disc, receptor `offset_m` >= radius off the axis, at right angles to the disc, facing the axis.
double disc_offset_perpendicular(double radius_m, double distance_m, double offset_m);

/// Rectangle with one corner on the receptor's normal, `distance_m` away and parallel to it.
double rectangle_corner_parallel(double width_m, double height_m, double distance_m);

/// Rectangle at right angles to the receptor's plane: one edge of `along_m` in that plane, its end
/// `distance_m` from the receptor (measured square to the edge), rising `height_m`.
double rectangle_corner_perpendicular(double height_m, double along_m, double distance_m);

/// Rectangle, parallel receptor at `distance_m`, off its centre by `offset_m`: four corners.
double rectangle_parallel(double width_m, double height_m, double distance_m,
                          const Vec2& offset_m = Vec2(0.0));

/// Flat polygon seen from `point_m` with unit `normal`, cut at the receptor's horizon. Lambert's
/// formula: F = |sum of edge angles times unit edge normals, along the normal| / 2 pi.
double polygon_factor(std::span<const Vec3> vertices_m, const Vec3& point_m, const Vec3& normal);

/// Corners of a regular octagon of that circumradius at the origin, facing +Z.
std::vector<Vec3> octagon_vertices(double circumradius_m);

/// Radius of the disc with an octagon's area.
double equal_area_radius_of_octagon_m(double circumradius_m);

/// Disc behind a round-celled grid, `cell_ratio` = cell width over depth, open fraction 1, receptor
/// on its axis and facing it: 2 times the integral of T(θ) sin cos up to the rim's angle.
double gridded_disc_on_axis(double radius_m, double distance_m, double cell_ratio);

/// By how much the inverse-square law from the face's centre over-estimates: (A/(pi d²))/F - 1.
double point_source_excess(double area_m2, double distance_m, double factor);

} // namespace keystead
