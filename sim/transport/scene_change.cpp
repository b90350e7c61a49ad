#include "sim/transport/scene_change.h"

#include <algorithm>
#include <cmath>

namespace keystead {

namespace {

using lanes::F16;
using lanes::M16;
using lanes::V16;

/// Narrows the shares of the segments within the box's slab along one axis.
KEYSTEAD_INLINE void within_slab(float low, float high, const F16& from, const F16& to, F16& enter,
                                 F16& leave) {
    constexpr float margin_m = 1e-3F;
    const F16 way = to - from;
    const M16 across = abs(way) < F16(1e-9F);
    const F16 over = F16(1.0F) / choose(across, F16(1.0F), way);
    const F16 a = (F16(low - margin_m) - from) * over, b = (F16(high + margin_m) - from) * over;
    const M16 outside = from < F16(low - margin_m) || from > F16(high + margin_m);
    enter = max(enter, choose(across, choose(outside, F16(2.0F), F16(0.0F)), min(a, b)));
    leave = min(leave, choose(across, choose(outside, F16(-1.0F), F16(1.0F)), max(a, b)));
}

/// Boxes along the axes of the frame that the segments are given in.
KEYSTEAD_INLINE M16 meets(const glm::vec3& low_m, const glm::vec3& high_m, const V16& from_m,
                          const V16& to_m) {
    F16 enter(0.0F), leave(1.0F);
    within_slab(low_m.x, high_m.x, from_m.x, to_m.x, enter, leave);
    within_slab(low_m.y, high_m.y, from_m.y, to_m.y, enter, leave);
    within_slab(low_m.z, high_m.z, from_m.z, to_m.z, enter, leave);
    return enter <= leave * 1.00001F + 1e-6F;
}

KEYSTEAD_INLINE V16 in_frame(const MeshBox& box, const V16& place_m) {
    const V16 off = place_m - V16(box.middle_m);
    return {dot(off, V16(box.axes[0])), dot(off, V16(box.axes[1])), dot(off, V16(box.axes[2]))};
}

/// Turns the axes so that the spread between two of them becomes none (Jacobi, 1846).
void turn_apart(glm::dmat3& spread, glm::dmat3& axes, int i, int j) {
    if (std::abs(spread[i][j]) < 1e-15) return;
    const double angle = 0.5 * std::atan2(2.0 * spread[i][j], spread[j][j] - spread[i][i]);
    glm::dmat3 turn(1.0);
    turn[i][i] = turn[j][j] = std::cos(angle);
    turn[j][i] = std::sin(angle);
    turn[i][j] = -turn[j][i];
    spread = glm::transpose(turn) * spread * turn;
    axes = axes * turn;
}

/// Directions in which points spread independently of each other.
glm::mat3 main_axes(const Mesh& mesh) {
    glm::dvec3 sum(0.0);
    for (const glm::vec3& p : mesh.positions_m) sum += glm::dvec3(p);
    const glm::dvec3 mean = sum / std::max(1.0, static_cast<double>(mesh.positions_m.size()));
    glm::dmat3 spread(0.0), axes(1.0);
    for (const glm::vec3& p : mesh.positions_m) {
        const glm::dvec3 off = glm::dvec3(p) - mean;
        spread += glm::outerProduct(off, off);
    }
    for (int round = 0; round < 8; ++round) {
        turn_apart(spread, axes, 0, 1);
        turn_apart(spread, axes, 0, 2);
        turn_apart(spread, axes, 1, 2);
    }
    return glm::mat3(axes);
}

/// Grows a box around another one that lies in it or sticks out a little: what moved by a
/// centimetre is in the way twice, and a lamp stands inside its own softbox.
bool take_in(MeshBox& box, const MeshBox& other) {
    constexpr float little_m = 0.04F;
    const glm::mat3 to_frame = glm::transpose(box.axes);
    const glm::vec3 middle = to_frame * (other.middle_m - box.middle_m);
    glm::vec3 reach(0.0F);
    for (int axis = 0; axis < 3; ++axis)
        reach += glm::abs(to_frame * other.axes[axis]) * other.half_m[axis];
    const glm::vec3 low = glm::min(middle - reach, -box.half_m);
    const glm::vec3 high = glm::max(middle + reach, box.half_m);
    const glm::vec3 growth = 0.5F * (high - low) - box.half_m;
    if (std::max({growth.x, growth.y, growth.z}) > little_m) return false;
    box.middle_m += box.axes * (0.5F * (low + high));
    box.half_m = 0.5F * (high - low);
    return true;
}

} // namespace

MeshBox box_of(const Mesh& mesh) {
    MeshBox box;
    box.axes = main_axes(mesh);
    glm::vec3 low(std::numeric_limits<float>::max()), high(std::numeric_limits<float>::lowest());
    const glm::mat3 to_frame = glm::transpose(box.axes);
    for (const glm::vec3& p : mesh.positions_m) {
        const glm::vec3 local = to_frame * p;
        low = glm::min(low, local);
        high = glm::max(high, local);
    }
    if (mesh.positions_m.empty()) return box;
    box.middle_m = box.axes * (0.5F * (low + high));
    box.half_m = 0.5F * (high - low);
    return box;
}

void ChangedPlaces::add(const MeshBox& box) {
    glm::vec3 reach_m(0.0F);
    for (int axis = 0; axis < 3; ++axis) reach_m += glm::abs(box.axes[axis]) * box.half_m[axis];
    low_m_ = glm::min(low_m_, box.middle_m - reach_m);
    high_m_ = glm::max(high_m_, box.middle_m + reach_m);
    for (MeshBox& other : boxes_) {
        if (take_in(other, box)) return;
        MeshBox grown = box;
        if (!take_in(grown, other)) continue;
        other = grown;
        return;
    }
    boxes_.push_back(box);
}

KEYSTEAD_SIMD void ChangedPlaces::meet(const V16& from_m, const V16& to_m, M16& touched) const {
    touched = M16(false);
    if (boxes_.empty() || !any(meets(low_m_, high_m_, from_m, to_m))) return;
    for (const MeshBox& box : boxes_) {
        touched =
            touched || meets(-box.half_m, box.half_m, in_frame(box, from_m), in_frame(box, to_m));
        if (all(touched)) return;
    }
}

} // namespace keystead
