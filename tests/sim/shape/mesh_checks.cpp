#include "sim/shape/mesh_checks.h"

#include "sim/base/vec.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <tuple>

namespace mesh_checks {

using keystead::Mesh;
using keystead::ScenePart;
using keystead::Vec3;

namespace {

struct Corners {
    Vec3 a, b, c;
    Vec3 doubled_area() const { return glm::cross(b - a, c - a); }
};

Corners corners_of(const Mesh& mesh, const glm::uvec3& triangle) {
    return {Vec3(mesh.positions_m[triangle.x]), Vec3(mesh.positions_m[triangle.y]),
            Vec3(mesh.positions_m[triangle.z])};
}

/// Index of the first vertex at the same place, for every vertex.
std::vector<std::size_t> welded(const Mesh& mesh) {
    std::map<std::tuple<float, float, float>, std::size_t> first;
    std::vector<std::size_t> result;
    for (const glm::vec3& p : mesh.positions_m)
        result.push_back(first.try_emplace({p.x, p.y, p.z}, result.size()).first->second);
    return result;
}

std::size_t root(std::vector<std::size_t>& parents, std::size_t vertex) {
    while (parents[vertex] != vertex) vertex = parents[vertex] = parents[parents[vertex]];
    return vertex;
}

bool per_vertex(std::size_t array, std::size_t vertices) {
    return array == 0 || array == vertices;
}

} // namespace

Box box_of(const Mesh& mesh) {
    Box box;
    for (const glm::vec3& point : mesh.positions_m) {
        box.low = glm::min(box.low, Vec3(point));
        box.high = glm::max(box.high, Vec3(point));
    }
    return box;
}

Box box_of(const std::vector<ScenePart>& parts, const std::string& part) {
    Box box;
    for (const ScenePart& one : parts) {
        if (one.part != part) continue;
        const Box own = box_of(*one.mesh);
        box.low = glm::min(box.low, own.low);
        box.high = glm::max(box.high, own.high);
    }
    return box;
}

double area_m2(const Mesh& mesh) {
    double area = 0.0;
    for (const glm::uvec3& triangle : mesh.triangles)
        area += 0.5 * glm::length(corners_of(mesh, triangle).doubled_area());
    return area;
}

std::size_t triangle_count(const std::vector<ScenePart>& parts) {
    return std::accumulate(
        parts.begin(), parts.end(), std::size_t{0},
        [](std::size_t sum, const ScenePart& part) { return sum + part.mesh->triangles.size(); });
}

std::string unsound(const Mesh& mesh) {
    const std::size_t vertices = mesh.positions_m.size();
    if (mesh.triangles.empty()) return "no triangles";
    if (mesh.normals.size() != vertices) return "not one normal a vertex";
    if (!per_vertex(mesh.colours.size(), vertices) || !per_vertex(mesh.roughness.size(), vertices))
        return "a per-vertex array of another length";
    for (const glm::vec3& normal : mesh.normals)
        if (!(std::abs(glm::length(normal) - 1.0F) < 1e-4F)) return "a normal that is not unit";
    for (const glm::uvec3& triangle : mesh.triangles) {
        if (std::max({triangle.x, triangle.y, triangle.z}) >= vertices) return "index out of range";
        const Corners corners = corners_of(mesh, triangle);
        const Vec3 across = corners.doubled_area();
        if (!(glm::length(across) > 2e-12)) return "a triangle without area";
        for (int corner = 0; corner < 3; ++corner)
            if (glm::dot(across, Vec3(mesh.normals[triangle[corner]])) <= 0.0)
                return "a normal on the back of its triangle at " + std::to_string(corners.a.x) +
                       ", " + std::to_string(corners.a.y) + ", " + std::to_string(corners.a.z);
    }
    return {};
}

std::string not_closed(const Mesh& mesh) {
    const std::vector<std::size_t> place = welded(mesh);
    std::map<std::pair<std::size_t, std::size_t>, int> edges;
    std::vector<std::size_t> parents(mesh.positions_m.size());
    std::iota(parents.begin(), parents.end(), std::size_t{0});
    for (const glm::uvec3& triangle : mesh.triangles)
        for (int corner = 0; corner < 3; ++corner) {
            const std::size_t from = place[triangle[corner]];
            const std::size_t to = place[triangle[(corner + 1) % 3]];
            edges[std::minmax(from, to)] += from < to ? 1 : -1;
            parents[root(parents, from)] = root(parents, to);
        }
    for (const auto& [edge, balance] : edges)
        if (balance != 0) {
            const glm::vec3 at = mesh.positions_m[edge.first];
            return "an open edge at " + std::to_string(at.x) + ", " + std::to_string(at.y) + ", " +
                   std::to_string(at.z);
        }
    std::map<std::size_t, double> volumes;
    for (const glm::uvec3& triangle : mesh.triangles) {
        const std::size_t piece = root(parents, place[triangle.x]);
        // Measured from the piece's own corner, so that distance from the origin costs no digits.
        const Vec3 corner(mesh.positions_m[piece]);
        const Corners at = corners_of(mesh, triangle);
        volumes[piece] += glm::dot(at.a - corner, glm::cross(at.b - corner, at.c - corner)) / 6.0;
    }
    for (const auto& [piece, volume] : volumes)
        if (!(volume > 0.0))
            return "a piece of volume " + std::to_string(volume * 1e6) + " cm³ at " +
                   std::to_string(mesh.positions_m[piece].x) + ", " +
                   std::to_string(mesh.positions_m[piece].y) + ", " +
                   std::to_string(mesh.positions_m[piece].z);
    return {};
}

} // namespace mesh_checks
