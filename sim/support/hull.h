// The support polygon: convex hull of the floor contacts, its edges, and signed distances to them.
// Plan coordinates are (x, z); "seen from above" puts camera right to the right and the camera at
// the bottom of the page.
#pragma once

#include "sim/base/vec.h"

#include <vector>

namespace keystead {

/// One edge of the support polygon.
struct PolygonEdge {
    Vec2 from_m{0.0}, to_m{0.0}; ///< x, z
    Vec2 outward{0.0, 1.0};      ///< unit normal, out of the polygon
    double distance_m = 0.0;     ///< of the centre of mass, positive inside
    double outward_deg = 0.0;    ///< azimuth of its outward normal
};

/// Radius of the circle inscribed in a regular base of `legs` feet: R cos(pi / n).
double inradius_m(int legs, double foot_radius_m);

/// Convex hull, counter-clockwise seen from above, without points that lie on an edge. It starts at
/// the first given point that is a corner: the feet of a base keep their order, edge i starts at
/// leg i, and turning the base turns the list's meaning with it.
std::vector<Vec2> convex_hull(const std::vector<Vec2>& points_m);

/// Edges of a counter-clockwise polygon moved inward by `inset_m`, each with `point_m`'s distance.
/// Where the inset swallows the polygon the distances still hold: they are then negative somewhere.
std::vector<PolygonEdge> polygon_edges(const std::vector<Vec2>& polygon_m, double inset_m,
                                       const Vec2& point_m);

/// Signed distance of a point to the edge's line, positive on the inner side.
double distance_inside_m(const PolygonEdge& edge, const Vec2& point_m);

/// Index of the edge with the smallest distance; the first of several equal ones (within a
/// nanometre, so that rounding does not choose); -1 without edges.
int weakest_edge(const std::vector<PolygonEdge>& edges);

inline Vec2 plan(const Vec3& point_m) {
    return {point_m.x, point_m.z};
}

} // namespace keystead
