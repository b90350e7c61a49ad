// Triangle meshes as plain data: what both the ray caster and the renderer consume.
#pragma once

#include <cstdint>
#include <glm/glm.hpp>
#include <vector>

namespace keystead {

/// Indexed triangles, counter-clockwise seen from outside. All per-vertex arrays are either empty
/// or as long as `positions_m`.
struct Mesh {
    std::vector<glm::vec3> positions_m;
    std::vector<glm::vec3> normals;    ///< unit, smooth
    std::vector<glm::vec3> colours;    ///< linear albedo; empty: the material's albedo
    std::vector<float> roughness;      ///< GGX roughness; empty: the material's roughness
    std::vector<std::uint8_t> regions; ///< meaning depends on the owner; empty: 0
    std::vector<glm::vec3> tangents;   ///< along hair strands; empty where there is no grain
    std::vector<glm::uvec3> triangles;
};

/// Appends `other` to `mesh`; per-vertex arrays that only one of them has are filled with defaults.
void append(Mesh& mesh, const Mesh& other);

/// The same mesh rotated, then moved.
Mesh transformed(Mesh mesh, const glm::mat3& rotation, const glm::vec3& offset_m);

/// Height of the lowest point; infinite for an empty mesh.
double lowest_m(const Mesh& mesh);

} // namespace keystead
