// The only door to the mesh library.
#pragma once

#include <cstdint>
#include <glm/glm.hpp>
#include <vector>

namespace keystead::importing {

/// For each vertex the first one at exactly the same place.
std::vector<std::uint32_t> weld_map(const std::vector<glm::vec3>& positions);

struct Decimated {
    std::vector<glm::uvec3> triangles; ///< indices into the given positions
    float error = 0.0F;                ///< the library's estimate, same unit as the positions
    bool kept_topology = true;         ///< false: parts were merged to reach the budget
};

/// Fewest-error collapse of a triangle list to at most `max_triangles`: quadric edge collapse
/// first; where holes and separate shells stop it short, vertices are clustered.
Decimated decimate(const std::vector<glm::vec3>& positions,
                   const std::vector<glm::uvec3>& triangles, std::size_t max_triangles);

} // namespace keystead::importing
