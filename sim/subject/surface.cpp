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
    const double value = field.at(p);
    if (std::abs(value) < 2e-4) return false;
    Vec3 slope = gradient(field, p);
    if (on_plane) slope.x = 0.0;
    const double steep = std::max(glm::dot(slope, slope), 0.05);
    Vec3 step = -slope * (value / steep);
    const double length = glm::length(step);
    if (length > 1.5) step *= 1.5 / length;
    p += step;
    return true;
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
    for (int pass = 0; pass < passes; ++pass) {
        std::vector<Vec3> sum(count, Vec3(0.0));
        std::vector<int> neighbours(count, 0);
        for (const glm::uvec3& t : surface.triangles)
            for (glm::length_t e = 0; e < 3; ++e) {
                sum[t[e]] += surface.points[t[(e + 1) % 3]];
                ++neighbours[t[e]];
            }
        for_each_point(count, [&](std::size_t i) {
            if (neighbours[i] == 0 || rim[i]) return;
            Vec3& p = surface.points[i];
            const bool on_plane = surface.mirrored && p.x == 0.0;
            Vec3 move = 0.5 * (sum[i] / double(neighbours[i]) - p);
            if (on_plane) move.x = 0.0;
            Vec3 normal = gradient(field, p);
            if (on_plane) normal.x = 0.0;
            normal /= std::max(glm::length(normal), 1e-9);
            p += move - normal * glm::dot(normal, move);
            step_to_surface(p, field, on_plane);
        });
    }
    project(surface, field, 2);
}

Mesh whole_mesh(const Surface& surface, const Field& field) {
    const std::size_t count = surface.points.size();
    std::vector<glm::vec3> normals(count);
    for_each_point(count, [&](std::size_t i) {
        const Vec3& p = surface.points[i];
        Vec3 n = gradient(field, p);
        if (surface.mirrored && p.x == 0.0) n.x = 0.0;
        normals[i] = glm::vec3(n / std::max(glm::length(n), 1e-9));
    });
    Mesh mesh;
    std::vector<std::uint32_t> left(count), right(count);
    for (std::size_t i = 0; i < count; ++i) {
        const Vec3 p = surface.points[i] * 1e-3;
        left[i] = static_cast<std::uint32_t>(mesh.positions_m.size());
        mesh.positions_m.emplace_back(p);
        mesh.normals.push_back(normals[i]);
        right[i] = left[i];
        if (surface.mirrored && p.x == 0.0) continue;
        right[i] = left[i] + 1;
        mesh.positions_m.emplace_back(Vec3(-p.x, p.y, p.z));
        mesh.normals.emplace_back(-normals[i].x, normals[i].y, normals[i].z);
    }
    for (const glm::uvec3& t : surface.triangles) {
        mesh.triangles.emplace_back(left[t.x], left[t.y], left[t.z]);
        mesh.triangles.emplace_back(right[t.x], right[t.z], right[t.y]);
    }
    return mesh;
}

} // namespace keystead::sculpt
