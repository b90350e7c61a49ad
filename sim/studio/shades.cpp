#include "sim/studio/shades.h"

#include "sim/shape/content_key.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <string>
#include <utility>
#include <vector>

namespace keystead {

namespace {

/// Box from its lowest to its highest corner.
struct Reach {
    glm::vec3 low_m{std::numeric_limits<float>::max()};
    glm::vec3 high_m{std::numeric_limits<float>::lowest()};
    void grow(const glm::vec3& low, const glm::vec3& high) {
        low_m = glm::min(low_m, low);
        high_m = glm::max(high_m, high);
    }
    Extent extent() const {
        return {0.5 * (Vec3(low_m) + Vec3(high_m)), 0.5 * (Vec3(high_m) - Vec3(low_m))};
    }
};

Reach reach_of(const Mesh& mesh) {
    Reach reach;
    for (const glm::vec3& p : mesh.positions_m) reach.grow(p, p);
    return reach;
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
    std::map<std::string, std::pair<Reach, std::vector<Shade>>> by_owner;
    for (const ScenePart& part : studio.scene.parts) {
        if ((part.mask & (ray_mask::casters | ray_mask::background)) == 0) continue;
        auto& [around, shades] = by_owner[part.owner];
        const Reach reach = reach_of(*part.mesh);
        around.grow(reach.low_m, reach.high_m);
        shades.push_back({reach.extent(), part.key});
    }
    for (auto& [name, owner] : by_owner)
        owners_.push_back({owner.first.extent(), std::move(owner.second)});
}

std::uint64_t Shades::between(const Extent& a, const Extent& b) const {
    ContentKey key;
    // Points of the boxes are at most so far from the line between their middles.
    constexpr double rounding_m = 1e-3;
    const Vec3 half_m = glm::max(a.half_m, b.half_m) + rounding_m;
    const auto near = [&](const Extent& extent) {
        return meets(a.centre_m, b.centre_m, extent.centre_m, extent.half_m + half_m);
    };
    for (const Owner& owner : owners_) {
        if (!near(owner.extent)) continue;
        for (const Shade& shade : owner.shades)
            if (near(shade.extent)) key.add(shade.key);
    }
    return key.value();
}

Extent extent_of(const Emitter& emitter) {
    const double reach_m = 0.5 * std::hypot(emitter.width_m, emitter.height_m) +
                           std::abs(emitter.depth_m) + emitter.front.door_length_m;
    return {emitter.centre_m, Vec3(reach_m)};
}

} // namespace keystead
