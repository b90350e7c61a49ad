// Triangles of a document in its scene's frame.
#pragma once

#include "sim/base/mesh.h"
#include "sim/import/gltf_accessor.h"
#include "sim/import/gltf_nodes.h"

namespace keystead::importing::gltf {

/// Where a mesh stands: one matrix, or one a joint with weights a vertex.
struct Placement {
    glm::dmat4 node{1.0};
    std::vector<glm::dmat4> joints; ///< empty: not skinned
};

/// §3.7.3.3: joint matrices of the rest pose; the skinned node's own transformation is not used.
Result<std::vector<glm::dmat4>> joint_matrices(const Source& source, const NodeTree& tree,
                                               std::size_t skin);

/// Triangles of a mode as indices in threes: §3.7.2.1 "Overview" (strips and fans).
std::vector<glm::uvec3> triangles_of(const std::vector<std::uint32_t>& indices, int mode);

/// One primitive, placed; normals only if the file has usable ones.
Result<Mesh> place_primitive(const Source& source, const Primitive& primitive,
                             const Placement& placement, std::vector<std::string>& notes);

/// Adds a note unless it is there already.
void note_once(std::vector<std::string>& notes, const std::string& note);

} // namespace keystead::importing::gltf
