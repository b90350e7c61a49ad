#include "sim/transport/point_grid.h"

#include <limits>

namespace keystead {

PointGrid::PointGrid(const std::vector<glm::vec3>& positions_m, float reach_m)
    : reach_m_(reach_m)
    , cell_m_(0.5F * reach_m) {
    glm::vec3 low(std::numeric_limits<float>::max()), high(std::numeric_limits<float>::lowest());
    for (const glm::vec3& p : positions_m) {
        low = glm::min(low, p);
        high = glm::max(high, p);
    }
    if (positions_m.empty()) return;
    low_m_ = low;
    // A wide room of fine points: larger cubes rather than a billion of them.
    constexpr double most_cells = 1e6;
    const glm::dvec3 size = high - low;
    const auto cells_across = [&](double cell_m) {
        return glm::floor(size / cell_m) + glm::dvec3(1.0);
    };
    const auto cells_with = [&](float cell_m) {
        const glm::dvec3 across = cells_across(static_cast<double>(cell_m));
        return across.x * across.y * across.z;
    };
    while (cells_with(cell_m_) > most_cells) cell_m_ *= 1.5F;
    cells_ = glm::ivec3(cells_across(static_cast<double>(cell_m_)));
    const std::size_t cells = static_cast<std::size_t>(cells_.x) *
                              static_cast<std::size_t>(cells_.y) *
                              static_cast<std::size_t>(cells_.z);
    std::vector<std::size_t> cell(positions_m.size());
    first_.assign(cells + 1, 0);
    for (std::size_t i = 0; i < positions_m.size(); ++i) {
        const glm::ivec3 at = cell_of(positions_m[i]);
        cell[i] = index(at.x, at.y, at.z);
        ++first_[cell[i] + 1];
    }
    for (std::size_t c = 0; c < cells; ++c) first_[c + 1] += first_[c];
    points_.resize(positions_m.size());
    std::vector<std::uint32_t> next(first_.begin(), first_.end() - 1);
    for (std::size_t i = 0; i < positions_m.size(); ++i)
        points_[next[cell[i]]++] = static_cast<std::uint32_t>(i);
}

} // namespace keystead
