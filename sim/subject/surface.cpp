#include "sim/subject/surface.h"

#include <tbb/blocked_range.h>
#include <tbb/parallel_for.h>
#include <unordered_map>

namespace keystead::sculpt {

namespace {

template <class F>
void for_each_point(std::size_t count, F&& body) {
    tbb::parallel_for(tbb::blocked_range<std::size_t>(0, count, 512),
                      [&](const tbb::blocked_range<std::size_t>& range) {
                          for (std::size_t i = range.begin(); i != range.end(); ++i) body(i);
                      });
}

std::uint64_t edge_key(std::uint32_t a, std::uint32_t b) {
    return (static_cast<std::uint64_t>(std::min(a, b)) << 32U) | std::max(a, b);
}

// One Newton step along the gradient, never more than 1.5 mm.
bool step_to_surface(Vec3& p, const Field& field, bool on_plane) {
    Vec3 slope = gradient(field, p);
    const double value = field.at(p);
    if (on_plane) slope.x = 0.0;
    const double steep = std::max(glm::dot(slope, slope), 0.05);
    Vec3 step = -slope * (value / steep);
    const double length = glm::length(step);
    if (length > 1.5) step *= 1.5 / length;
    p += step;
    return length > 0.003;
}

} // namespace

void project(Surface& surface, const Field& field, int steps) {
    for_each_point(surface.points.size(), [&](std::size_t i) {
        Vec3& p = surface.points[i];
        const bool on_plane = surface.mirrored && p.x == 0.0;
        for (int step = 0; step < steps; ++step)
            if (!step_to_surface(p, field, on_plane)) break;
        if (surface.mirrored && !on_plane) p.x = std::max(p.x, 0.05);
    });
}

std::vector<bool> rim_points(const Surface& surface) {
    std::unordered_map<std::uint64_t, int> uses;
    uses.reserve(surface.triangles.size() * 2);
    for (const glm::uvec3& t : surface.triangles)
        for (glm::length_t e = 0; e < 3; ++e) ++uses[edge_key(t[e], t[(e + 1) % 3])];
    std::vector<bool> rim(surface.points.size(), false);
    for (const auto& [key, count] : uses) {
        const auto a = static_cast<std::uint32_t>(key >> 32U), b = static_cast<std::uint32_t>(key);
        const bool on_plane =
            surface.mirrored && surface.points[a].x == 0.0 && surface.points[b].x == 0.0;
        if (count == 1 && !on_plane) rim[a] = rim[b] = true;
    }
    return rim;
}

void relax(Surface& surface, const Field& field, int passes) {
    const std::size_t count = surface.points.size();
    const std::vector<bool> rim = rim_points(surface);
    std::vector<Vec3> sum(count), normal(count);
    std::vector<int> neighbours(count);
    for (int pass = 0; pass < passes; ++pass) {
        std::fill(sum.begin(), sum.end(), Vec3(0.0));
        std::fill(normal.begin(), normal.end(), Vec3(0.0));
        std::fill(neighbours.begin(), neighbours.end(), 0);
        for (const glm::uvec3& t : surface.triangles) {
            const auto& p = surface.points;
            const Vec3 area = glm::cross(p[t.y] - p[t.x], p[t.z] - p[t.x]);
            for (glm::length_t e = 0; e < 3; ++e) {
                sum[t[e]] += p[t[(e + 1) % 3]];
                normal[t[e]] += area;
                ++neighbours[t[e]];
            }
        }
        for (std::size_t i = 0; i < count; ++i) {
            if (neighbours[i] == 0 || rim[i]) continue;
            Vec3& p = surface.points[i];
            const bool on_plane = surface.mirrored && p.x == 0.0;
            Vec3 move = 0.5 * (sum[i] / double(neighbours[i]) - p);
            Vec3 n = normal[i];
            if (on_plane) move.x = n.x = 0.0;
            n /= std::max(glm::length(n), 1e-9);
            p += move - n * glm::dot(n, move);
        }
        project(surface, field, pass + 1 == passes ? 3 : 1);
    }
}

void find_normals(Surface& surface, const Field& field) {
    surface.normals.resize(surface.points.size());
    for_each_point(surface.points.size(), [&](std::size_t i) {
        const Vec3& p = surface.points[i];
        Vec3 n = gradient(field, p);
        if (surface.mirrored && p.x == 0.0) n.x = 0.0;
        surface.normals[i] = n / std::max(glm::length(n), 1e-9);
    });
}

void drop_unused_points(Surface& surface) {
    std::vector<std::uint32_t> number(surface.points.size(), 0);
    for (const glm::uvec3& t : surface.triangles)
        for (glm::length_t e = 0; e < 3; ++e) number[t[e]] = 1;
    std::uint32_t count = 0;
    for (std::size_t i = 0; i < number.size(); ++i) {
        if (number[i] == 0) continue;
        surface.points[count] = surface.points[i];
        if (!surface.normals.empty()) surface.normals[count] = surface.normals[i];
        number[i] = count++;
    }
    surface.points.resize(count);
    if (!surface.normals.empty()) surface.normals.resize(count);
    for (glm::uvec3& t : surface.triangles) t = {number[t.x], number[t.y], number[t.z]};
}

Mesh whole_mesh(const Surface& surface) {
    const std::size_t count = surface.points.size();
    Mesh mesh;
    std::vector<std::uint32_t> left(count), right(count);
    for (std::size_t i = 0; i < count; ++i) {
        const Vec3 p = surface.points[i] * 1e-3;
        const glm::vec3 n(surface.normals[i]);
        left[i] = right[i] = static_cast<std::uint32_t>(mesh.positions_m.size());
        mesh.positions_m.emplace_back(p);
        mesh.normals.push_back(n);
        if (surface.mirrored && p.x == 0.0) continue;
        right[i] = left[i] + 1;
        mesh.positions_m.emplace_back(Vec3(-p.x, p.y, p.z));
        mesh.normals.emplace_back(-n.x, n.y, n.z);
    }
    for (const glm::uvec3& t : surface.triangles) {
        mesh.triangles.emplace_back(left[t.x], left[t.y], left[t.z]);
        mesh.triangles.emplace_back(right[t.x], right[t.z], right[t.y]);
    }
    return mesh;
}

} // namespace keystead::sculpt
