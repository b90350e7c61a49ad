// Points sorted into cubes, so that those near a place are found at once.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <glm/glm.hpp>
#include <vector>

namespace keystead {

class PointGrid {
public:
    /// `reach_m`: how far around a place is asked for.
    PointGrid(const std::vector<glm::vec3>& positions_m, float reach_m);

    /// Calls `take` with the number of every point within reach of a place, and of some beyond, in
    /// the same order every time.
    template <class Take>
    void visit(const glm::vec3& place_m, Take&& take) const {
        if (points_.empty()) return;
        const glm::ivec3 low = cell_of(place_m - reach_m_), high = cell_of(place_m + reach_m_);
        for (int z = low.z; z <= high.z; ++z)
            for (int y = low.y; y <= high.y; ++y) {
                // Cells of a row lie side by side.
                const std::uint32_t end = first_[index(high.x, y, z) + 1];
                for (std::uint32_t i = first_[index(low.x, y, z)]; i < end; ++i) take(points_[i]);
            }
    }

private:
    glm::ivec3 cell_of(const glm::vec3& place_m) const {
        const glm::vec3 at = (place_m - low_m_) / cell_m_;
        return glm::ivec3(glm::clamp(at, glm::vec3(0.0F), glm::vec3(cells_ - 1)));
    }
    std::size_t index(int x, int y, int z) const {
        return static_cast<std::size_t>((z * cells_.y + y) * cells_.x + x);
    }

    float reach_m_, cell_m_;
    glm::vec3 low_m_{0.0F};
    glm::ivec3 cells_{1};
    std::vector<std::uint32_t> first_; ///< by cell, and one past the last
    std::vector<std::uint32_t> points_;
};

} // namespace keystead
