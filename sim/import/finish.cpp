#include "sim/import/finish.h"

#include <algorithm>
#include <limits>

namespace keystead::importing {

namespace {

/// Triangles that use a vertex twice have no face.
std::size_t drop_folded(Mesh& mesh) {
    return std::erase_if(
        mesh.triangles, [](const glm::uvec3& t) { return t.x == t.y || t.y == t.z || t.z == t.x; });
}

Bounds bounds_of(const Mesh& mesh) {
    Bounds bounds{glm::vec3(std::numeric_limits<float>::max()),
                  glm::vec3(std::numeric_limits<float>::lowest())};
    for (const glm::vec3& p : mesh.positions_m) {
        bounds.low = glm::min(bounds.low, p);
        bounds.high = glm::max(bounds.high, p);
    }
    return bounds;
}

/// Volume the triangles enclose, by the divergence theorem about the middle of the box; negative
/// if they face inward. Of an open shell only the sign means something.
double signed_volume(const Mesh& mesh, const Bounds& bounds) {
    const glm::dvec3 middle = 0.5 * (glm::dvec3(bounds.low) + glm::dvec3(bounds.high));
    double volume = 0.0;
    for (const glm::uvec3& t : mesh.triangles) {
        const glm::dvec3 a = glm::dvec3(mesh.positions_m[t.x]) - middle;
        const glm::dvec3 b = glm::dvec3(mesh.positions_m[t.y]) - middle;
        const glm::dvec3 c = glm::dvec3(mesh.positions_m[t.z]) - middle;
        volume += glm::dot(a, glm::cross(b, c)) / 6.0;
    }
    return volume;
}

/// Do most normals point to the side from which the triangle is seen counter-clockwise?
bool normals_follow_winding(const Mesh& mesh) {
    std::int64_t balance = 0;
    for (const glm::uvec3& t : mesh.triangles) {
        const glm::vec3& a = mesh.positions_m[t.x];
        const glm::dvec3 face = glm::cross(glm::dvec3(mesh.positions_m[t.y] - a),
                                           glm::dvec3(mesh.positions_m[t.z] - a));
        const double side = glm::dot(face, glm::dvec3(mesh.normals[t.x]));
        balance += side > 0.0 ? 1 : side < 0.0 ? -1 : 0;
    }
    return balance >= 0;
}

void turn_outward(ImportedMesh& imported) {
    Mesh& mesh = imported.mesh;
    const glm::dvec3 size(imported.bounds.size());
    const double box = size.x * size.y * size.z;
    if (signed_volume(mesh, imported.bounds) < -0.02 * box) {
        for (glm::uvec3& t : mesh.triangles) std::swap(t.y, t.z);
        imported.notes.emplace_back("The surface was inside out and has been turned.");
    }
    if (normals_follow_winding(mesh)) return;
    for (glm::vec3& normal : mesh.normals) normal = -normal;
    imported.notes.emplace_back("The file's normals pointed inward and have been turned.");
}

template <class T>
void keep_used(std::vector<T>& values, const std::vector<std::uint32_t>& to, std::size_t kept) {
    if (values.empty()) return;
    for (std::size_t i = 0; i < to.size(); ++i)
        if (to[i] != 0xFFFFFFFFU) values[to[i]] = values[i]; // `to` never runs ahead of i
    values.resize(kept);
}

} // namespace

void drop_unused_vertices(Mesh& mesh) {
    std::vector<std::uint32_t> to(mesh.positions_m.size(), 0xFFFFFFFFU);
    for (const glm::uvec3& t : mesh.triangles) to[t.x] = to[t.y] = to[t.z] = 0;
    std::uint32_t kept = 0;
    for (std::uint32_t& target : to)
        if (target == 0) target = kept++;
    if (kept == to.size()) return;
    keep_used(mesh.positions_m, to, kept);
    keep_used(mesh.normals, to, kept);
    keep_used(mesh.colours, to, kept);
    keep_used(mesh.roughness, to, kept);
    keep_used(mesh.regions, to, kept);
    keep_used(mesh.tangents, to, kept);
    for (glm::uvec3& t : mesh.triangles) t = {to[t.x], to[t.y], to[t.z]};
}

Outcome finish(ImportedMesh& imported, const Blame& blame) {
    Mesh& mesh = imported.mesh;
    if (const std::size_t folded = drop_folded(mesh))
        imported.notes.push_back(std::to_string(folded) +
                                 " triangles that use one corner twice were left out.");
    if (mesh.triangles.empty())
        return blame.problem("", "it shows no triangles", "export the surface as a mesh");
    if (mesh.normals.empty()) {
        compute_normals(mesh);
        imported.notes.emplace_back("Normals were computed; the file has none.");
    }
    drop_unused_vertices(mesh);
    imported.bounds = bounds_of(mesh);
    const glm::vec3 size = imported.bounds.size();
    if (!(std::max({size.x, size.y, size.z}) > 1e-9F))
        return blame.damaged("", "all its corners lie in one place");
    turn_outward(imported);
    return std::nullopt;
}

} // namespace keystead::importing
