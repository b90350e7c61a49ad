#include "sim/shape/build/sweep.h"

#include <algorithm>
#include <cmath>

namespace keystead::build {

namespace {

Vec3 tangent_at(const std::vector<Vec3>& path, std::size_t i) {
    const Vec3& before = path[i == 0 ? 0 : i - 1];
    const Vec3& after = path[std::min(i + 1, path.size() - 1)];
    return glm::normalize(after - before);
}

std::vector<Vec2> circle(double radius_m, int sides) {
    std::vector<Vec2> outline;
    outline.reserve(static_cast<std::size_t>(sides));
    for (int side = 0; side < sides; ++side) {
        const double angle = 2.0 * pi * side / sides;
        outline.emplace_back(radius_m * std::cos(angle), radius_m * std::sin(angle));
    }
    return outline;
}

/// Centripetal Catmull-Rom between b and c by Barry and Goldman's pyramid: neither overshoots nor
/// kinks where the points are unevenly spaced.
Vec3 between(const Vec3& a, const Vec3& b, const Vec3& c, const Vec3& d, double part) {
    const double tb = std::sqrt(glm::distance(a, b));
    const double tc = tb + std::sqrt(glm::distance(b, c));
    const double td = tc + std::sqrt(glm::distance(c, d));
    const double t = glm::mix(tb, tc, part);
    const auto blend = [t](const Vec3& from, const Vec3& to, double start, double end) {
        return glm::mix(from, to, (t - start) / (end - start));
    };
    const Vec3 ab = blend(a, b, 0.0, tb);
    const Vec3 bc = blend(b, c, tb, tc);
    const Vec3 cd = blend(c, d, tc, td);
    return blend(blend(ab, bc, 0.0, tc), blend(bc, cd, tb, td), tb, tc);
}

Vec3 middle_of(const std::vector<Vec3>& points) {
    Vec3 sum(0.0);
    for (const Vec3& point : points) sum += point;
    return sum / static_cast<double>(points.size());
}

} // namespace

std::vector<Vec3> smooth_path(const std::vector<Vec3>& points_m, int steps) {
    std::vector<Vec3> path;
    const std::size_t last = points_m.size() - 1;
    path.reserve(last * static_cast<std::size_t>(steps) + 1);
    for (std::size_t i = 0; i < last; ++i) {
        const Vec3 b = points_m[i];
        const Vec3 c = points_m[i + 1];
        const Vec3 a = i == 0 ? 2.0 * b - c : points_m[i - 1];
        const Vec3 d = i + 1 == last ? 2.0 * c - b : points_m[i + 2];
        for (int step = 0; step < steps; ++step)
            path.push_back(between(a, b, c, d, static_cast<double>(step) / steps));
    }
    path.push_back(points_m.back());
    return path;
}

Mesh rod(const std::vector<Vec3>& path_m, double radius_m, int sides) {
    std::vector<Station> stations;
    stations.reserve(path_m.size());
    Frame frame = facing(path_m.front(), tangent_at(path_m, 0));
    for (std::size_t i = 0; i < path_m.size(); ++i) {
        const Vec3 z = tangent_at(path_m, i);
        // The last section's x axis, made square to the new direction.
        const Vec3 x = glm::normalize(frame.x() - z * glm::dot(frame.x(), z));
        frame = {path_m[i], Mat3(x, glm::cross(z, x), z)};
        stations.push_back({frame, Vec2(1.0)});
    }
    return loft(stations, circle(radius_m, sides));
}

Mesh joined(const std::vector<std::vector<Vec3>>& rings_m) {
    Mesh mesh;
    const auto sides = static_cast<std::uint32_t>(rings_m.front().size());
    for (const std::vector<Vec3>& ring : rings_m)
        for (const Vec3& point : ring) mesh.positions_m.emplace_back(point);
    const auto start = static_cast<std::uint32_t>(mesh.positions_m.size());
    mesh.positions_m.emplace_back(middle_of(rings_m.front()));
    mesh.positions_m.emplace_back(middle_of(rings_m.back()));
    const auto last = static_cast<std::uint32_t>(rings_m.size() - 1);
    for (std::uint32_t i = 0; i < sides; ++i) {
        const std::uint32_t next = (i + 1) % sides;
        for (std::uint32_t ring = 0; ring < last; ++ring) {
            const std::uint32_t here = ring * sides;
            mesh.triangles.emplace_back(here + i, here + next, here + sides + next);
            mesh.triangles.emplace_back(here + i, here + sides + next, here + sides + i);
        }
        mesh.triangles.emplace_back(start, next, i);
        mesh.triangles.emplace_back(start + 1, last * sides + i, last * sides + next);
    }
    return mesh;
}

Mesh loft(const std::vector<Station>& stations, const std::vector<Vec2>& outline) {
    std::vector<std::vector<Vec3>> rings;
    rings.reserve(stations.size());
    for (const Station& station : stations) {
        std::vector<Vec3>& ring = rings.emplace_back();
        ring.reserve(outline.size());
        for (const Vec2& point : outline)
            ring.push_back(
                station.frame.at(point.x * station.scale.x, point.y * station.scale.y, 0.0));
    }
    return joined(rings);
}

Mesh strap(const std::vector<Vec3>& path_m, const Vec3& across, double width_m,
           double thickness_m) {
    std::vector<Station> stations;
    stations.reserve(path_m.size());
    for (std::size_t i = 0; i < path_m.size(); ++i) {
        const Vec3 z = tangent_at(path_m, i);
        const Vec3 x = glm::normalize(across - z * glm::dot(across, z));
        stations.push_back({{path_m[i], Mat3(x, glm::cross(z, x), z)}, Vec2(1.0)});
    }
    const double w = 0.5 * width_m;
    const double t = 0.5 * thickness_m;
    return loft(stations, {{w, -t}, {w, t}, {-w, t}, {-w, -t}});
}

} // namespace keystead::build
