#include "sim/import/decimate.h"

#include <meshoptimizer.h>

namespace keystead::importing {

namespace {

const float* floats(const std::vector<glm::vec3>& positions) {
    return &positions.front().x;
}

std::vector<unsigned int> corners_of(const std::vector<glm::uvec3>& triangles) {
    std::vector<unsigned int> corners;
    corners.reserve(3 * triangles.size());
    for (const glm::uvec3& t : triangles) corners.insert(corners.end(), {t.x, t.y, t.z});
    return corners;
}

std::vector<glm::uvec3> triangles_of(const std::vector<unsigned int>& corners, std::size_t count) {
    std::vector<glm::uvec3> triangles;
    triangles.reserve(count / 3);
    for (std::size_t i = 0; i + 3 <= count; i += 3)
        triangles.emplace_back(corners[i], corners[i + 1], corners[i + 2]);
    return triangles;
}

} // namespace

std::vector<std::uint32_t> weld_map(const std::vector<glm::vec3>& positions) {
    std::vector<std::uint32_t> first(positions.size());
    if (positions.empty()) return first;
    // The library compares bytes; adding zero makes one zero of the two.
    std::vector<glm::vec3> same_zero = positions;
    for (glm::vec3& p : same_zero) p += glm::vec3(0.0F);
    std::vector<unsigned int> group(positions.size());
    const std::size_t groups =
        meshopt_generateVertexRemap(group.data(), nullptr, positions.size(), same_zero.data(),
                                    positions.size(), sizeof(glm::vec3));
    constexpr std::uint32_t unset = 0xFFFFFFFFU;
    std::vector<std::uint32_t> first_of_group(groups, unset);
    for (std::uint32_t i = 0; i < first.size(); ++i) {
        std::uint32_t& leader = first_of_group[group[i]];
        if (leader == unset) leader = i;
        first[i] = leader;
    }
    return first;
}

Decimated decimate(const std::vector<glm::vec3>& positions,
                   const std::vector<glm::uvec3>& triangles, std::size_t max_triangles) {
    Decimated result;
    if (positions.empty() || triangles.size() <= max_triangles) {
        result.triangles = triangles;
        return result;
    }
    const std::vector<unsigned int> corners = corners_of(triangles);
    std::vector<unsigned int> kept(corners.size());
    const float scale =
        meshopt_simplifyScale(floats(positions), positions.size(), sizeof(glm::vec3));
    constexpr float any_error = 1.0F; // relative to the extent: the budget decides, not the error
    float error = 0.0F;
    std::size_t count = meshopt_simplify(kept.data(), corners.data(), corners.size(),
                                         floats(positions), positions.size(), sizeof(glm::vec3),
                                         3 * max_triangles, any_error, 0, &error);
    if (count > 3 * max_triangles) {
        result.kept_topology = false;
        count = meshopt_simplifySloppy(kept.data(), corners.data(), corners.size(),
                                       floats(positions), positions.size(), sizeof(glm::vec3),
                                       3 * max_triangles, any_error, &error);
    }
    result.error = error * scale;
    result.triangles = triangles_of(kept, count);
    return result;
}

} // namespace keystead::importing
