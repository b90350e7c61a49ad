// The node hierarchy: glTF 2.0 §3.5.2 "Node Hierarchy": a set of strict trees.
#pragma once

#include "sim/import/gltf_document.h"

namespace keystead::importing::gltf {

struct NodeTree {
    std::vector<glm::dmat4> global; ///< each node to the scene
    std::vector<std::size_t> shown; ///< nodes of the scene, parents before children
};

/// Walks without recursion. A problem for a node with two parents, a cycle, too deep a tree, or a
/// transformation that is not finite.
Result<NodeTree> walk_nodes(const Document& document, const ImportLimits& limits,
                            const Blame& blame);

} // namespace keystead::importing::gltf
