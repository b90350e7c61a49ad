#include "sim/studio/shades.h"

#include "sim/shape/content_key.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <string>

namespace keystead {

namespace {

struct Reach {
    glm::vec3 low_m{std::numeric_limits<float>::max()};
    glm::vec3 high_m{std::numeric_limits<float>::lowest()};
    ContentKey key;
};

void grow(Reach& reach, const ScenePart& part) {
    for (const glm::vec3& p : part.mesh->positions_m) {
        reach.low_m = glm::min(reach.low_m, p);
        reach.high_m = glm::max(reach.high_m, p);
    }
    reach.key.add(part.key);
}

/// Does the segment meet the box? Slab test along each axis.
bool meets(const Vec3& from_m, const Vec3& to_m, const Vec3& middle_m, const Vec3& half_m) {
    double enter = 0.0, leave = 1.0;
    for (int axis = 0; axis < 3; ++axis) {
        const double start = from_m[axis] - middle_m[axis], way = to_m[axis] - from_m[axis];
        if (std::abs(way) < 1e-12) {
            if (std::abs(start) > half_m[axis]) return false;
            continue;
        }
        const double a = (-half_m[axis] - start) / way, b = (half_m[axis] - start) / way;
        enter = std::max(enter, std::min(a, b));
        leave = std::min(leave, std::max(a, b));
    }
    return enter <= leave;
}

} // namespace

Shades::Shades(const Studio& studio) {
    std::map<std::string, Reach> reaches;
    for (const ScenePart& part : studio.scene.parts)
        if ((part.mask & (ray_mask::casters | ray_mask::background)) != 0)
            grow(reaches[part.owner], part);
    for (const auto& [owner, reach] : reaches) {
        const Vec3 low(reach.low_m), high(reach.high_m);
        shades_.push_back({{0.5 * (low + high), 0.5 * (high - low)}, reach.key.value()});
    }
}

std::uint64_t Shades::between(const Extent& a, const Extent& b) const {
    ContentKey key;
    // Points of the boxes are at most so far from the line between their middles.
    constexpr double rounding_m = 1e-3;
    const Vec3 half_m = glm::max(a.half_m, b.half_m) + rounding_m;
    for (const Shade& shade : shades_)
        if (meets(a.centre_m, b.centre_m, shade.extent.centre_m, shade.extent.half_m + half_m))
            key.add(shade.key);
    return key.value();
}

Extent extent_of(const Emitter& emitter) {
    const double reach_m = 0.5 * std::hypot(emitter.width_m, emitter.height_m) +
                           std::abs(emitter.depth_m) + emitter.front.door_length_m;
    return {emitter.centre_m, Vec3(reach_m)};
}

} // namespace keystead
