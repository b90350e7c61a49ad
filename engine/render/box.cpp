#include "engine/render/box.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

namespace keystead {

namespace {

using Cell = std::array<int, 3>;

Cell cell_of(const glm::vec3& place_m, float cell_m) {
    const glm::vec3 cell = glm::floor(place_m / cell_m);
    return {static_cast<int>(cell.x), static_cast<int>(cell.y), static_cast<int>(cell.z)};
}

/// Boxes by cell, in a fixed order.
class Cells {
public:
    explicit Cells(float cell_m)
        : cell_m_(cell_m) {}

    void add(const glm::vec3& middle_m, const Box& box) {
        const Cell cell = cell_of(middle_m, cell_m_);
        if (last_ == nullptr || cell != last_cell_) {
            last_ = &boxes_.try_emplace(cell, box).first->second;
            last_cell_ = cell;
        }
        *last_ = united(*last_, box);
    }

    std::vector<Box> all() const {
        std::vector<Box> boxes;
        for (const auto& [cell, box] : boxes_) boxes.push_back(box);
        return boxes;
    }

private:
    float cell_m_;
    std::map<Cell, Box> boxes_;
    Box* last_ = nullptr; ///< neighbours in a list are mostly neighbours in the room
    Cell last_cell_{};
};

/// The share t of the way from one number to the other at which the moving one is `most` at most.
void keep_below(float from, float to, float most, float& first, float& last) {
    const float step = to - from;
    if (step == 0.0F) {
        if (from > most) last = -1.0F;
    } else if (step > 0.0F) {
        last = std::min(last, (most - from) / step);
    } else {
        first = std::max(first, (most - from) / step);
    }
}

} // namespace

Box box_of(std::span<const glm::vec3> points) {
    if (points.empty()) return {};
    Box box{points[0], points[0]};
    for (const glm::vec3& point : points) box = united(box, {point, point});
    return box;
}

Box united(const Box& a, const Box& b) {
    return {glm::min(a.low_m, b.low_m), glm::max(a.high_m, b.high_m)};
}

Box widened(const Box& box, float by_m) {
    return {box.low_m - by_m, box.high_m + by_m};
}

bool touches(const Box& a, const Box& b) {
    return glm::all(glm::lessThanEqual(a.low_m, b.high_m)) &&
           glm::all(glm::lessThanEqual(b.low_m, a.high_m));
}

bool between(const Box& box, const Box& from, const Box& to) {
    // The hull of two boxes is swept by the box that changes evenly from one into the other.
    float first = 0.0F, last = 1.0F;
    for (int axis = 0; axis < 3 && first <= last; ++axis) {
        keep_below(from.low_m[axis], to.low_m[axis], box.high_m[axis], first, last);
        keep_below(-from.high_m[axis], -to.high_m[axis], -box.low_m[axis], first, last);
    }
    return first <= last;
}

std::vector<Box> boxes_of(std::span<const glm::vec3> points, float cell_m) {
    Cells cells(cell_m);
    for (const glm::vec3& point : points) cells.add(point, {point, point});
    return cells.all();
}

std::vector<Box> boxes_of(const Mesh& mesh, float cell_m) {
    Cells cells(cell_m);
    for (const glm::uvec3& corner : mesh.triangles) {
        const std::array<glm::vec3, 3> points{
            mesh.positions_m[corner.x], mesh.positions_m[corner.y], mesh.positions_m[corner.z]};
        cells.add((points[0] + points[1] + points[2]) / 3.0F, box_of(points));
    }
    return cells.all();
}

} // namespace keystead
