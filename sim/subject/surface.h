// From field to triangles: surface nets on a graded grid, vertices slid onto the field.
#pragma once

#include "sim/base/mesh.h"
#include "sim/subject/field.h"

#include <vector>

namespace keystead::sculpt {

/// Sample positions along each axis, rising. When x[0] < 0 < x[1] = -x[0] the first cell straddles
/// the mirror plane and its vertices are put on the plane.
struct GridAxes {
    std::vector<double> x, y, z;
    bool mirrored() const { return x.front() < 0.0; }
};

/// Samples from `from` on, each segment up to `to` in steps near `step`.
struct AxisSegment {
    double to = 0.0, step = 1.0;
};
std::vector<double> graded_axis(double from, std::initializer_list<AxisSegment> segments);
/// As `graded_axis`, but starting half a step left of the mirror plane.
std::vector<double> mirror_axis(std::initializer_list<AxisSegment> segments);

/// Half a surface (x >= 0) or a whole one that does not touch the plane. Millimetres.
struct Surface {
    std::vector<Vec3> points;
    std::vector<Vec3> normals; ///< empty until `find_normals`
    std::vector<glm::uvec3> triangles;
    bool mirrored = false; ///< points with x == 0 lie on the plane
};

/// Dual surface of the sampled field (Gibson 1998); may be open where the grid ends.
Surface surface_nets(const Field& field, const GridAxes& axes);

/// Parts two sheets that touch along an edge: each gets its own middle of it. Before
/// `find_normals`.
void part_sheets(Surface& surface);

/// Moves every point onto the zero level; points on the plane stay on it.
void project(Surface& surface, const Field& field, int steps = 3);

/// Evens out the triangles along the surface, then projects.
void relax(Surface& surface, const Field& field, int passes);

/// Unit normals from the field's gradient at every point.
void find_normals(Surface& surface, const Field& field);

/// Renumbers so that only points of triangles are kept.
void drop_unused_points(Surface& surface);

/// Points on edges that belong to one triangle only, the mirror plane aside.
std::vector<bool> rim_points(const Surface& surface);

/// Both halves as one mesh in metres; needs normals.
Mesh whole_mesh(const Surface& surface);

} // namespace keystead::sculpt
