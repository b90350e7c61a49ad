#include "sim/shape/build/solids.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace keystead::build {

namespace {

/// Vertices of one ring of a lathe, or its single pole.
struct Ring {
    std::uint32_t first = 0;
    bool pole = false;
};

std::uint32_t add_point(Mesh& mesh, const Vec3& point_m) {
    mesh.positions_m.emplace_back(point_m);
    return static_cast<std::uint32_t>(mesh.positions_m.size() - 1);
}

Ring add_ring(Mesh& mesh, const Frame& frame, const Vec2& point, int sides) {
    if (point.x <= 0.0) return {add_point(mesh, frame.at(0, 0, point.y)), true};
    const auto first = static_cast<std::uint32_t>(mesh.positions_m.size());
    for (int side = 0; side < sides; ++side) {
        const double angle = 2.0 * pi * side / sides;
        add_point(mesh, frame.at(point.x * std::cos(angle), point.x * std::sin(angle), point.y));
    }
    return {first, false};
}

void join_rings(Mesh& mesh, const Ring& low, const Ring& high, int sides) {
    if (low.pole && high.pole) return;
    for (int side = 0; side < sides; ++side) {
        const auto here = static_cast<std::uint32_t>(side);
        const auto next = static_cast<std::uint32_t>((side + 1) % sides);
        if (!low.pole)
            mesh.triangles.emplace_back(low.first + here, low.first + next,
                                        high.pole ? high.first : high.first + next);
        if (!high.pole)
            mesh.triangles.emplace_back(low.pole ? low.first : low.first + here, high.first + next,
                                        high.first + here);
    }
}

} // namespace

Mesh lathe(const Frame& frame, const std::vector<Vec2>& profile, int sides, bool ring) {
    Mesh mesh;
    std::vector<Ring> rings;
    rings.reserve(profile.size());
    for (const Vec2& point : profile) rings.push_back(add_ring(mesh, frame, point, sides));
    for (std::size_t i = 0; i + 1 < rings.size(); ++i)
        join_rings(mesh, rings[i], rings[i + 1], sides);
    if (ring) join_rings(mesh, rings.back(), rings.front(), sides);
    return mesh;
}

Mesh bar(const Vec3& from_m, const Vec3& to_m, double radius_m, double end_radius_m, int sides) {
    const double length = glm::length(to_m - from_m);
    return lathe(facing(from_m, to_m - from_m),
                 {{0, 0}, {radius_m, 0}, {end_radius_m, length}, {0, length}}, sides);
}

Mesh drum(const Vec3& centre_m, const Vec3& axis, double radius_m, double length_m, int sides,
          double chamfer_m) {
    const double half = 0.5 * length_m;
    std::vector<Vec2> profile{{0, -half}, {radius_m, -half}, {radius_m, half}, {0, half}};
    if (chamfer_m > 0.0)
        profile = {{0, -half},
                   {radius_m - chamfer_m, -half},
                   {radius_m, -half + chamfer_m},
                   {radius_m, half - chamfer_m},
                   {radius_m - chamfer_m, half},
                   {0, half}};
    return lathe(facing(centre_m, axis), profile, sides);
}

Mesh ball(const Frame& frame, double radius_m, int sides) {
    std::vector<Vec2> profile;
    const int rings = sides / 2;
    profile.reserve(static_cast<std::size_t>(rings) + 1);
    for (int ring = 0; ring <= rings; ++ring) {
        const double angle = pi * ring / rings;
        const bool pole = ring == 0 || ring == rings;
        profile.emplace_back(pole ? 0.0 : radius_m * std::sin(angle), -radius_m * std::cos(angle));
    }
    return lathe(frame, profile, sides);
}

Mesh box(const Frame& frame, const Vec3& half_m) {
    Mesh mesh;
    for (int corner = 0; corner < 8; ++corner)
        add_point(mesh, frame.at((corner & 1) != 0 ? half_m.x : -half_m.x,
                                 (corner & 2) != 0 ? half_m.y : -half_m.y,
                                 (corner & 4) != 0 ? half_m.z : -half_m.z));
    mesh.triangles = {{0, 2, 3}, {0, 3, 1}, {4, 5, 7}, {4, 7, 6}, {0, 1, 5}, {0, 5, 4},
                      {2, 6, 7}, {2, 7, 3}, {0, 4, 6}, {0, 6, 2}, {1, 3, 7}, {1, 7, 5}};
    return mesh;
}

Mesh chamfered_box(const Frame& frame, const Vec3& half_m, double chamfer_m) {
    // Rings of eight points: four levels along z, closed by flat ends. The end rings are cut twice,
    // so a chamfer has room for less than half of the shortest side.
    const double c = std::min(chamfer_m, 0.45 * std::min({half_m.x, half_m.y, half_m.z}));
    Mesh mesh;
    const auto ring = [&](double inset_m, double z_m) {
        const double x = half_m.x - inset_m;
        const double y = half_m.y - inset_m;
        const auto first = static_cast<std::uint32_t>(mesh.positions_m.size());
        const std::array<Vec2, 8> outline{{{x, -y + c},
                                           {x, y - c},
                                           {x - c, y},
                                           {-x + c, y},
                                           {-x, y - c},
                                           {-x, -y + c},
                                           {-x + c, -y},
                                           {x - c, -y}}};
        for (const Vec2& point : outline) add_point(mesh, frame.at(point.x, point.y, z_m));
        return first;
    };
    const std::array<std::uint32_t, 4> rings{ring(c, -half_m.z), ring(0, -half_m.z + c),
                                             ring(0, half_m.z - c), ring(c, half_m.z)};
    for (std::size_t level = 0; level + 1 < rings.size(); ++level)
        join_rings(mesh, {rings[level], false}, {rings[level + 1], false}, 8);
    for (std::uint32_t i = 1; i + 1 < 8; ++i) {
        mesh.triangles.emplace_back(rings[0], rings[0] + i + 1, rings[0] + i);
        mesh.triangles.emplace_back(rings[3], rings[3] + i, rings[3] + i + 1);
    }
    return mesh;
}

Mesh extruded(const Frame& frame, const std::vector<Vec2>& convex_polygon, double thickness_m) {
    Mesh mesh;
    const auto sides = static_cast<std::uint32_t>(convex_polygon.size());
    for (const double z : {0.0, thickness_m})
        for (const Vec2& point : convex_polygon) add_point(mesh, frame.at(point.x, point.y, z));
    join_rings(mesh, {0, false}, {sides, false}, static_cast<int>(sides));
    for (std::uint32_t i = 1; i + 1 < sides; ++i) {
        mesh.triangles.emplace_back(0, i + 1, i);
        mesh.triangles.emplace_back(sides, sides + i, sides + i + 1);
    }
    return mesh;
}

} // namespace keystead::build
