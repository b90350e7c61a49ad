#include "sim/import/gltf_nodes.h"

#include "sim/import/field_check.h"

#include <cmath>

namespace keystead::importing::gltf {

namespace {

constexpr std::size_t nobody = static_cast<std::size_t>(-1);

Result<std::vector<std::size_t>> parents_of(const Document& document, const Blame& blame) {
    std::vector<std::size_t> parent(document.nodes.size(), nobody);
    for (std::size_t i = 0; i < document.nodes.size(); ++i)
        for (const std::size_t child : document.nodes[i].children) {
            if (parent[child] != nobody)
                return blame.damaged(at("nodes", i) + ".children", at("nodes", child) +
                                                                       " already belongs to " +
                                                                       at("nodes", parent[child]));
            parent[child] = i;
        }
    return parent;
}

bool is_affine_and_finite(const glm::dmat4& matrix) {
    for (int column = 0; column < 4; ++column)
        for (int row = 0; row < 4; ++row)
            if (!(std::abs(matrix[column][row]) < 1e30)) return false;
    const double off = std::abs(matrix[0][3]) + std::abs(matrix[1][3]) + std::abs(matrix[2][3]) +
                       std::abs(matrix[3][3] - 1.0);
    return off < 1e-4;
}

/// Node and its depth, yet to be visited.
struct Visit {
    std::size_t node = 0, depth = 0;
};

/// Global matrices from every tree's top down; what no top reaches lies in a cycle.
Outcome fill_globals(const Document& document, const std::vector<std::size_t>& parent,
                     const ImportLimits& limits, const Blame& blame, NodeTree& tree) {
    std::vector<Visit> open;
    for (std::size_t i = 0; i < parent.size(); ++i)
        if (parent[i] == nobody) open.push_back({i, 1});
    std::size_t visited = 0;
    while (!open.empty()) {
        const Visit visit = open.back();
        open.pop_back();
        ++visited;
        const Node& node = document.nodes[visit.node];
        const std::size_t above = parent[visit.node];
        tree.global[visit.node] = above == nobody ? node.local : tree.global[above] * node.local;
        if (!is_affine_and_finite(tree.global[visit.node]))
            return blame.damaged(at("nodes", visit.node), "its transformation is unusable");
        if (visit.depth > limits.max_node_depth)
            return blame.problem(at("nodes", visit.node),
                                 "it lies deeper than " + std::to_string(limits.max_node_depth) +
                                     " levels",
                                 "flatten the hierarchy before exporting");
        for (const std::size_t child : node.children) open.push_back({child, visit.depth + 1});
    }
    if (visited == parent.size()) return std::nullopt;
    for (std::size_t i = 0;; ++i) {
        std::size_t up = i; // a node from which the way up never ends
        for (std::size_t step = 0; step < parent.size() && up != nobody; ++step) up = parent[up];
        if (up != nobody)
            return blame.damaged(at("nodes", up) + ".children", "it is its own ancestor");
    }
}

} // namespace

Result<NodeTree> walk_nodes(const Document& document, const ImportLimits& limits,
                            const Blame& blame) {
    const Result<std::vector<std::size_t>> parent = parents_of(document, blame);
    if (!parent) return parent.problem();
    NodeTree tree;
    tree.global.assign(document.nodes.size(), glm::dmat4(1.0));
    if (const Outcome bad = fill_globals(document, parent.value(), limits, blame, tree))
        return *bad;
    std::vector<bool> is_shown(document.nodes.size(), false);
    std::vector<std::size_t> open(document.roots.rbegin(), document.roots.rend());
    while (!open.empty()) {
        const std::size_t node = open.back();
        open.pop_back();
        if (is_shown[node]) continue; // a root listed twice, or below another root
        is_shown[node] = true;
        tree.shown.push_back(node);
        const std::vector<std::size_t>& children = document.nodes[node].children;
        open.insert(open.end(), children.rbegin(), children.rend());
    }
    return tree;
}

} // namespace keystead::importing::gltf
