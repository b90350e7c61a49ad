// Where a part's irradiance is found, and which vertices share it.
#pragma once

#include "sim/shape/scene.h"

#include <cstdint>
#include <span>
#include <vector>

namespace keystead {

struct BakePoint {
    glm::vec3 position_m{0.0F};
    glm::vec3 normal{0.0F, 1.0F, 0.0F};
};

/// Unit normals of a mesh's vertices: its own, else averaged from its triangles by area.
std::vector<glm::vec3> vertex_normals(const Mesh& mesh);

/// About one point a cube of `spacing_m` and main direction of the surface, each on the surface.
/// Points near each other in the list lie near each other and face the same way.
std::vector<BakePoint> spread_bake_points(const Mesh& mesh, double spacing_m);

/// Shares of points that a vertex takes: nearer ones and those that face its way count more. They
/// add up to 1.
struct BakeShare {
    std::uint32_t point = 0;
    float share = 0.0F;
};
/// All vertices' shares in a row.
struct BakeShares {
    std::vector<std::uint32_t> first; ///< by vertex, and one past the last
    std::vector<BakeShare> all;

    std::span<const BakeShare> of(std::size_t vertex) const {
        return {all.data() + first[vertex], all.data() + first[vertex + 1]};
    }
    std::size_t vertices() const { return first.empty() ? 0 : first.size() - 1; }
};
BakeShares shares_of_vertices(const Mesh& mesh, const std::vector<BakePoint>& points,
                              double spacing_m);

} // namespace keystead
