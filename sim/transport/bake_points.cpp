#include "sim/transport/bake_points.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <tbb/parallel_for.h>
#include <tuple>

namespace keystead {

namespace {

using Cell = std::tuple<int, int, int>;

Cell cell_of(const glm::vec3& p, double spacing_m) {
    const auto index = [&](float x) {
        return static_cast<int>(std::floor(static_cast<double>(x) / spacing_m));
    };
    return {index(p.x), index(p.y), index(p.z)};
}

/// Which of the six axis directions a normal is nearest to.
int main_direction(const glm::vec3& n) {
    const glm::vec3 a = glm::abs(n);
    const int axis = a.x >= a.y && a.x >= a.z ? 0 : a.y >= a.z ? 1 : 2;
    return 2 * axis + (n[axis] < 0.0F ? 1 : 0);
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

using Grid3 = std::map<Cell, std::vector<std::uint32_t>>;

float weight_of(const BakePoint& point, const glm::vec3& position, const glm::vec3& normal,
                float reach_m) {
    const float distance = glm::length(point.position_m - position) / reach_m;
    const float facing = glm::dot(point.normal, normal);
    if (distance >= 1.0F || facing <= 0.0F) return 0.0F;
    const float near = 1.0F - distance;
    return near * near * facing * facing;
}

/// Points in a cell and two cells round it: all that its vertices can take a share of.
std::vector<std::uint32_t> points_near(const Cell& cell, const Grid3& grid) {
    std::vector<std::uint32_t> near;
    const auto [cx, cy, cz] = cell;
    for (int x = cx - 2; x <= cx + 2; ++x)
        for (int y = cy - 2; y <= cy + 2; ++y)
            for (int z = cz - 2; z <= cz + 2; ++z)
                if (const auto here = grid.find({x, y, z}); here != grid.end())
                    near.insert(near.end(), here->second.begin(), here->second.end());
    return near;
}

std::vector<BakeShare> shares_at(const glm::vec3& position, const glm::vec3& normal,
                                 const std::vector<BakePoint>& points,
                                 const std::vector<std::uint32_t>& near, double spacing_m) {
    std::vector<BakeShare> shares;
    const auto reach_m = static_cast<float>(2.0 * spacing_m);
    float sum = 0.0F;
    for (const std::uint32_t i : near) {
        const float w = weight_of(points[i], position, normal, reach_m);
        if (w <= 0.0F) continue;
        shares.push_back({i, w});
        sum += w;
    }
    for (BakeShare& share : shares) share.share /= sum;
    return shares;
}

/// The nearest point that faces the same half space, for vertices far from all others.
BakeShare nearest(const glm::vec3& position, const glm::vec3& normal,
                  const std::vector<BakePoint>& points) {
    BakeShare best{0, 1.0F};
    float least = 1e30F;
    for (std::uint32_t i = 0; i < points.size(); ++i) {
        const float away = glm::length(points[i].position_m - position) *
                           (1.5F - glm::dot(points[i].normal, normal));
        if (away < least) {
            least = away;
            best.point = i;
        }
    }
    return best;
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
    struct Cluster {
        glm::dvec3 sum{0.0};
        int count = 0;
        std::uint32_t best = 0;
        double least = 1e30;
    };
    std::map<std::pair<Cell, int>, Cluster> clusters;
    const auto cluster_of = [&](std::uint32_t v) -> Cluster& {
        return clusters[{cell_of(mesh.positions_m[v], spacing_m), main_direction(normals[v])}];
    };
    const auto count = static_cast<std::uint32_t>(mesh.positions_m.size());
    for (std::uint32_t v = 0; v < count; ++v) {
        Cluster& cluster = cluster_of(v);
        cluster.sum += glm::dvec3(mesh.positions_m[v]);
        ++cluster.count;
    }
    // The vertex nearest to the middle of its cluster stands for it: it lies on the surface.
    for (std::uint32_t v = 0; v < count; ++v) {
        Cluster& cluster = cluster_of(v);
        const double away =
            glm::length(glm::dvec3(mesh.positions_m[v]) - cluster.sum / double(cluster.count));
        if (away < cluster.least) {
            cluster.least = away;
            cluster.best = v;
        }
    }
    std::vector<BakePoint> points;
    points.reserve(clusters.size());
    for (const auto& [key, cluster] : clusters)
        points.push_back(
            {inside_triangle(mesh, cluster.best, triangles[cluster.best]), normals[cluster.best]});
    return points;
}

std::vector<std::vector<BakeShare>>
shares_of_vertices(const Mesh& mesh, const std::vector<BakePoint>& points, double spacing_m) {
    Grid3 grid;
    for (std::uint32_t i = 0; i < points.size(); ++i)
        grid[cell_of(points[i].position_m, spacing_m)].push_back(i);
    Grid3 vertices;
    for (std::uint32_t v = 0; v < mesh.positions_m.size(); ++v)
        vertices[cell_of(mesh.positions_m[v], spacing_m)].push_back(v);
    const std::vector<Grid3::value_type> cells(vertices.begin(), vertices.end());
    const std::vector<glm::vec3> normals = vertex_normals(mesh);
    std::vector<std::vector<BakeShare>> shares(mesh.positions_m.size());
    tbb::parallel_for(std::size_t{0}, cells.size(), [&](std::size_t c) {
        const std::vector<std::uint32_t> near = points_near(cells[c].first, grid);
        for (const std::uint32_t v : cells[c].second) {
            shares[v] = shares_at(mesh.positions_m[v], normals[v], points, near, spacing_m);
            if (shares[v].empty())
                shares[v].push_back(nearest(mesh.positions_m[v], normals[v], points));
        }
    });
    return shares;
}

} // namespace keystead
