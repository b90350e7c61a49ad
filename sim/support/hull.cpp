#include "sim/support/hull.h"

#include <algorithm>
#include <cmath>

namespace keystead {

namespace {

/// Twice the area of a, b, c: positive when they turn counter-clockwise seen from above, where z
/// grows down the page.
double turn(const Vec2& a, const Vec2& b, const Vec2& c) {
    return (b.y - a.y) * (c.x - a.x) - (b.x - a.x) * (c.y - a.y);
}

/// One half of Andrew's monotone chain over points in the given order.
template <class Points>
std::vector<Vec2> chain(const Points& points_m) {
    std::vector<Vec2> kept;
    for (const Vec2& point : points_m) {
        while (kept.size() >= 2 && turn(kept[kept.size() - 2], kept.back(), point) <= 0.0)
            kept.pop_back();
        kept.push_back(point);
    }
    return kept;
}

std::vector<Vec2> starting_at_first(std::vector<Vec2> hull, const std::vector<Vec2>& points_m) {
    for (const Vec2& point : points_m) {
        const auto corner = std::find(hull.begin(), hull.end(), point);
        if (corner == hull.end()) continue;
        std::rotate(hull.begin(), corner, hull.end());
        break;
    }
    return hull;
}

PolygonEdge edge_between(const Vec2& from_m, const Vec2& to_m, double inset_m) {
    const Vec2 along = glm::normalize(to_m - from_m);
    PolygonEdge edge;
    edge.outward = {-along.y, along.x};
    edge.outward_deg = degrees(std::atan2(edge.outward.x, edge.outward.y));
    edge.from_m = from_m - inset_m * edge.outward;
    edge.to_m = to_m - inset_m * edge.outward;
    return edge;
}

/// Where the lines of two neighbouring edges meet.
Vec2 corner(const PolygonEdge& before, const PolygonEdge& after) {
    const Vec2 a = before.outward, b = after.outward;
    const double cross = a.x * b.y - a.y * b.x;
    const double along_a = glm::dot(a, before.to_m), along_b = glm::dot(b, after.from_m);
    return {(along_a * b.y - along_b * a.y) / cross, (along_b * a.x - along_a * b.x) / cross};
}

} // namespace

double inradius_m(int legs, double foot_radius_m) {
    return foot_radius_m * std::cos(pi / legs);
}

std::vector<Vec2> convex_hull(const std::vector<Vec2>& points_m) {
    if (points_m.size() < 3) return points_m;
    std::vector<Vec2> sorted = points_m;
    std::sort(sorted.begin(), sorted.end(),
              [](const Vec2& a, const Vec2& b) { return a.x != b.x ? a.x < b.x : a.y < b.y; });
    std::vector<Vec2> hull = chain(sorted);
    std::reverse(sorted.begin(), sorted.end());
    const std::vector<Vec2> back = chain(sorted);
    hull.pop_back();
    hull.insert(hull.end(), back.begin(), back.end() - 1);
    return starting_at_first(std::move(hull), points_m);
}

std::vector<PolygonEdge> polygon_edges(const std::vector<Vec2>& polygon_m, double inset_m,
                                       const Vec2& point_m) {
    std::vector<PolygonEdge> edges;
    const std::size_t count = polygon_m.size();
    if (count < 3) return edges;
    for (std::size_t i = 0; i < count; ++i) {
        edges.push_back(edge_between(polygon_m[i], polygon_m[(i + 1) % count], inset_m));
        edges.back().distance_m = distance_inside_m(edges.back(), point_m);
    }
    if (inset_m == 0.0) return edges;
    for (std::size_t i = 0; i < count; ++i) {
        PolygonEdge& next = edges[(i + 1) % count];
        const Vec2 meeting_m = corner(edges[i], next);
        edges[i].to_m = meeting_m;
        next.from_m = meeting_m;
    }
    return edges;
}

double distance_inside_m(const PolygonEdge& edge, const Vec2& point_m) {
    return glm::dot(edge.outward, edge.from_m - point_m);
}

int weakest_edge(const std::vector<PolygonEdge>& edges) {
    constexpr double alike_m = 1e-9;
    int weakest = -1;
    double least_m = 0.0;
    for (std::size_t i = 0; i < edges.size(); ++i) {
        if (weakest >= 0 && edges[i].distance_m >= least_m - alike_m) continue;
        weakest = static_cast<int>(i);
        least_m = edges[i].distance_m;
    }
    return weakest;
}

} // namespace keystead
