#include "sim/transport/bake_points.h"

#include "sim/transport/point_grid.h"

#include <algorithm>
#include <cmath>
#include <tbb/parallel_for.h>

namespace keystead {

namespace {

/// Which of the six axis directions a normal is nearest to.
std::uint64_t main_direction(const glm::vec3& n) {
    const glm::vec3 a = glm::abs(n);
    const int axis = a.x >= a.y && a.x >= a.z ? 0 : a.y >= a.z ? 1 : 2;
    return static_cast<std::uint64_t>(2 * axis + (n[axis] < 0.0F ? 1 : 0));
}

/// The low twenty bits with two zeros before each.
std::uint64_t spread_bits(std::uint64_t x) {
    x &= 0xFFFFFU;
    x = (x | (x << 32U)) & 0x001F00000000FFFFU;
    x = (x | (x << 16U)) & 0x001F0000FF0000FFU;
    x = (x | (x << 8U)) & 0x100F00F00F00F00FU;
    x = (x | (x << 4U)) & 0x10C30C30C30C30C3U;
    return (x | (x << 2U)) & 0x1249249249249249U;
}

/// Of a cube of `spacing_m` and a main direction; the bits of the cube's places take turns, so that
/// cubes near each other mostly follow each other (Morton, 1966).
std::uint64_t cluster_key(const glm::vec3& p, const glm::vec3& normal, double spacing_m) {
    const auto bits = [&](float x) {
        const double cell = std::floor(static_cast<double>(x) / spacing_m) + 524288.0;
        return spread_bits(static_cast<std::uint64_t>(std::clamp(cell, 0.0, 1048575.0)));
    };
    return main_direction(normal) << 60U | bits(p.x) << 2U | bits(p.y) << 1U | bits(p.z);
}

/// For each vertex one triangle that uses it.
std::vector<std::uint32_t> triangle_of_vertices(const Mesh& mesh) {
    std::vector<std::uint32_t> some(mesh.positions_m.size(), 0);
    for (std::uint32_t t = 0; t < mesh.triangles.size(); ++t)
        for (int k = 0; k < 3; ++k) some[mesh.triangles[t][k]] = t;
    return some;
}

/// A vertex drawn a little into one of its triangles: rays from an edge of the room would leave it.
glm::vec3 inside_triangle(const Mesh& mesh, std::uint32_t vertex, std::uint32_t triangle) {
    const glm::uvec3& t = mesh.triangles[triangle];
    const glm::vec3 middle =
        (mesh.positions_m[t.x] + mesh.positions_m[t.y] + mesh.positions_m[t.z]) / 3.0F;
    return glm::mix(mesh.positions_m[vertex], middle, 0.1F);
}

struct KeyedVertex {
    std::uint64_t key = 0;
    std::uint32_t vertex = 0;
};

/// The vertex nearest to the middle of its cluster stands for it: it lies on the surface.
std::uint32_t middle_of(const Mesh& mesh, std::span<const KeyedVertex> cluster) {
    glm::dvec3 sum(0.0);
    for (const KeyedVertex& v : cluster) sum += glm::dvec3(mesh.positions_m[v.vertex]);
    const glm::dvec3 middle = sum / static_cast<double>(cluster.size());
    std::uint32_t best = 0;
    double least = 1e30;
    for (const KeyedVertex& v : cluster) {
        const glm::dvec3 off = glm::dvec3(mesh.positions_m[v.vertex]) - middle;
        const double away = glm::dot(off, off);
        if (away >= least) continue;
        least = away;
        best = v.vertex;
    }
    return best;
}

float weight_of(const BakePoint& point, const glm::vec3& position, const glm::vec3& normal,
                float reach_m) {
    const glm::vec3 off = point.position_m - position;
    const float square = glm::dot(off, off);
    const float facing = glm::dot(point.normal, normal);
    if (square >= reach_m * reach_m || facing <= 0.0F) return 0.0F;
    const float near = 1.0F - std::sqrt(square) / reach_m;
    return near * near * facing * facing;
}

/// The nearest point that faces the same half space, for vertices far from all others.
std::uint32_t nearest(const glm::vec3& position, const glm::vec3& normal,
                      const std::vector<BakePoint>& points) {
    std::uint32_t best = 0;
    float least = 1e30F;
    for (std::uint32_t i = 0; i < points.size(); ++i) {
        const float away = glm::length(points[i].position_m - position) *
                           (1.5F - glm::dot(points[i].normal, normal));
        if (away < least) {
            least = away;
            best = i;
        }
    }
    return best;
}

/// Adds one vertex's shares.
void add_shares(const glm::vec3& position, const glm::vec3& normal,
                const std::vector<BakePoint>& points, const PointGrid& grid, float reach_m,
                std::vector<BakeShare>& shares) {
    const std::size_t begin = shares.size();
    float sum = 0.0F;
    grid.visit(position, [&](std::uint32_t i) {
        const float w = weight_of(points[i], position, normal, reach_m);
        if (w <= 0.0F) return;
        shares.push_back({i, w});
        sum += w;
    });
    if (shares.size() == begin) shares.push_back({nearest(position, normal, points), sum = 1.0F});
    for (std::size_t i = begin; i < shares.size(); ++i) shares[i].share /= sum;
}

} // namespace

std::vector<glm::vec3> vertex_normals(const Mesh& mesh) {
    if (!mesh.normals.empty()) return mesh.normals;
    std::vector<glm::vec3> normals(mesh.positions_m.size(), glm::vec3(0.0F));
    for (const glm::uvec3& t : mesh.triangles) {
        const glm::vec3 twice_area = glm::cross(mesh.positions_m[t.y] - mesh.positions_m[t.x],
                                                mesh.positions_m[t.z] - mesh.positions_m[t.x]);
        for (int k = 0; k < 3; ++k) normals[t[k]] += twice_area;
    }
    for (glm::vec3& n : normals) {
        const float length = glm::length(n);
        n = length > 0.0F ? n / length : glm::vec3(0, 1, 0);
    }
    return normals;
}

std::vector<BakePoint> spread_bake_points(const Mesh& mesh, double spacing_m) {
    const std::vector<glm::vec3> normals = vertex_normals(mesh);
    const std::vector<std::uint32_t> triangles = triangle_of_vertices(mesh);
    std::vector<KeyedVertex> vertices(mesh.positions_m.size());
    for (std::uint32_t v = 0; v < vertices.size(); ++v)
        vertices[v] = {cluster_key(mesh.positions_m[v], normals[v], spacing_m), v};
    std::sort(vertices.begin(), vertices.end(), [](const KeyedVertex& a, const KeyedVertex& b) {
        return a.key != b.key ? a.key < b.key : a.vertex < b.vertex;
    });
    std::vector<BakePoint> points;
    for (std::size_t begin = 0, end = 0; begin < vertices.size(); begin = end) {
        while (end < vertices.size() && vertices[end].key == vertices[begin].key) ++end;
        const std::uint32_t best = middle_of(mesh, std::span(vertices).subspan(begin, end - begin));
        points.push_back({inside_triangle(mesh, best, triangles[best]), normals[best]});
    }
    return points;
}

BakeShares shares_of_vertices(const Mesh& mesh, const std::vector<BakePoint>& points,
                              double spacing_m) {
    const std::vector<glm::vec3> normals = vertex_normals(mesh);
    const auto reach_m = static_cast<float>(2.0 * spacing_m);
    std::vector<glm::vec3> positions_m;
    for (const BakePoint& point : points) positions_m.push_back(point.position_m);
    const PointGrid grid(positions_m, reach_m);
    constexpr std::size_t run = 256;
    const std::size_t count = mesh.positions_m.size();
    std::vector<std::vector<BakeShare>> runs((count + run - 1) / run);
    BakeShares shares;
    shares.first.assign(count + 1, 0);
    tbb::parallel_for(std::size_t{0}, runs.size(), [&](std::size_t r) {
        for (std::size_t v = r * run; v < std::min(count, (r + 1) * run); ++v) {
            const std::size_t before = runs[r].size();
            add_shares(mesh.positions_m[v], normals[v], points, grid, reach_m, runs[r]);
            shares.first[v + 1] = static_cast<std::uint32_t>(runs[r].size() - before);
        }
    });
    for (std::size_t v = 0; v < count; ++v) shares.first[v + 1] += shares.first[v];
    shares.all.reserve(shares.first.back());
    for (const std::vector<BakeShare>& part : runs)
        shares.all.insert(shares.all.end(), part.begin(), part.end());
    return shares;
}

} // namespace keystead
