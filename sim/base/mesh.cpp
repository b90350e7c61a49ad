#include "sim/base/mesh.h"

#include <algorithm>
#include <limits>

namespace keystead {

namespace {

template <class T>
void append_array(std::vector<T>& into, const std::vector<T>& from, std::size_t count_before,
                  std::size_t count_added, T fallback) {
    if (into.empty() && from.empty()) return;
    into.resize(count_before, fallback);
    into.insert(into.end(), from.begin(), from.end());
    into.resize(count_before + count_added, fallback);
}

} // namespace

void append(Mesh& mesh, const Mesh& other) {
    const std::size_t before = mesh.positions_m.size();
    const std::size_t added = other.positions_m.size();
    mesh.positions_m.insert(mesh.positions_m.end(), other.positions_m.begin(),
                            other.positions_m.end());
    append_array(mesh.normals, other.normals, before, added, glm::vec3(0, 1, 0));
    append_array(mesh.colours, other.colours, before, added, glm::vec3(0.18F));
    append_array(mesh.roughness, other.roughness, before, added, 0.5F);
    append_array(mesh.regions, other.regions, before, added, std::uint8_t{0});
    append_array(mesh.tangents, other.tangents, before, added, glm::vec3(0, 1, 0));
    const auto first = static_cast<glm::uint>(before);
    mesh.triangles.reserve(mesh.triangles.size() + other.triangles.size());
    for (const glm::uvec3& triangle : other.triangles)
        mesh.triangles.push_back(triangle + glm::uvec3(first));
}

Mesh transformed(Mesh mesh, const glm::mat3& rotation, const glm::vec3& offset_m) {
    for (glm::vec3& position : mesh.positions_m) position = rotation * position + offset_m;
    for (glm::vec3& normal : mesh.normals) normal = rotation * normal;
    for (glm::vec3& tangent : mesh.tangents) tangent = rotation * tangent;
    return mesh;
}

double lowest_m(const Mesh& mesh) {
    float low = std::numeric_limits<float>::infinity();
    for (const glm::vec3& p : mesh.positions_m) low = std::min(low, p.y);
    return static_cast<double>(low);
}

} // namespace keystead
