#include "sim/shape/build/finish.h"

#include "sim/base/vec.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace keystead::build {

namespace {

struct Corner {
    std::uint32_t triangle = 0;
    int place = 0;          ///< which of the triangle's three vertices
    float angle_rad = 0.0F; ///< weight of the face in the vertex normal
};

struct Faces {
    std::vector<glm::uvec3> triangles;
    std::vector<glm::vec3> normals;
};

/// Triangles with area and their unit normals. Worked in double: small parts sit metres away from
/// the origin.
Faces faces_of(const Mesh& mesh) {
    Faces faces;
    faces.triangles.reserve(mesh.triangles.size());
    faces.normals.reserve(mesh.triangles.size());
    for (const glm::uvec3& triangle : mesh.triangles) {
        const Vec3 a(mesh.positions_m[triangle.x]);
        const Vec3 b(mesh.positions_m[triangle.y]);
        const Vec3 c(mesh.positions_m[triangle.z]);
        const Vec3 normal = glm::cross(b - a, c - a);
        const double doubled_area = glm::length(normal);
        if (doubled_area < 1e-11) continue;
        faces.triangles.push_back(triangle);
        faces.normals.emplace_back(normal / doubled_area);
    }
    return faces;
}

float corner_angle(const Mesh& mesh, const glm::uvec3& triangle, int place) {
    const glm::vec3 here = mesh.positions_m[triangle[place]];
    const glm::vec3 to_next = mesh.positions_m[triangle[(place + 1) % 3]] - here;
    const glm::vec3 to_last = mesh.positions_m[triangle[(place + 2) % 3]] - here;
    return std::atan2(glm::length(glm::cross(to_next, to_last)), glm::dot(to_next, to_last));
}

/// Corners grouped by vertex: those of vertex v are [first[v], first[v + 1]).
struct Corners {
    std::vector<Corner> list;
    std::vector<std::size_t> first;
};

Corners corners_by_vertex(const Mesh& mesh, const Faces& faces) {
    Corners corners;
    corners.first.assign(mesh.positions_m.size() + 1, 0);
    for (const glm::uvec3& triangle : faces.triangles)
        for (int place = 0; place < 3; ++place) ++corners.first[triangle[place] + 1];
    for (std::size_t v = 1; v < corners.first.size(); ++v) corners.first[v] += corners.first[v - 1];
    corners.list.resize(corners.first.back());
    std::vector<std::size_t> next(corners.first.begin(), corners.first.end() - 1);
    for (std::uint32_t t = 0; t < faces.triangles.size(); ++t)
        for (int place = 0; place < 3; ++place) {
            const glm::uvec3& triangle = faces.triangles[t];
            corners.list[next[triangle[place]]++] = {t, place, corner_angle(mesh, triangle, place)};
        }
    return corners;
}

} // namespace

Mesh finished(const Mesh& welded, double crease_deg) {
    const Faces faces = faces_of(welded);
    const Corners corners = corners_by_vertex(welded, faces);
    const auto smooth_above = static_cast<float>(std::cos(radians(crease_deg)));
    Mesh mesh;
    mesh.triangles.resize(faces.triangles.size());
    for (std::size_t v = 0; v < welded.positions_m.size(); ++v) {
        const std::size_t first_split = mesh.positions_m.size();
        for (std::size_t c = corners.first[v]; c < corners.first[v + 1]; ++c) {
            const glm::vec3 own = faces.normals[corners.list[c].triangle];
            glm::vec3 sum(0.0F);
            for (std::size_t o = corners.first[v]; o < corners.first[v + 1]; ++o) {
                const glm::vec3 other = faces.normals[corners.list[o].triangle];
                if (glm::dot(own, other) >= smooth_above) sum += other * corners.list[o].angle_rad;
            }
            const glm::vec3 normal = glm::normalize(sum);
            std::size_t split = first_split;
            while (split < mesh.positions_m.size() &&
                   glm::dot(mesh.normals[split], normal) < 0.9999F)
                ++split;
            if (split == mesh.positions_m.size()) {
                mesh.positions_m.push_back(welded.positions_m[v]);
                mesh.normals.push_back(normal);
            }
            mesh.triangles[corners.list[c].triangle][corners.list[c].place] =
                static_cast<glm::uint>(split);
        }
    }
    return mesh;
}

Mesh tinted(Mesh mesh, const glm::vec3& albedo, float roughness) {
    mesh.colours.assign(mesh.positions_m.size(), albedo);
    mesh.roughness.assign(mesh.positions_m.size(), roughness);
    return mesh;
}

Mesh reversed(Mesh mesh) {
    for (glm::uvec3& triangle : mesh.triangles) std::swap(triangle.y, triangle.z);
    for (glm::vec3& normal : mesh.normals) normal = -normal;
    return mesh;
}

} // namespace keystead::build
