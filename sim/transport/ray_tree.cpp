#include "sim/transport/ray_tree.h"

#include "sim/transport/ray_packet.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace keystead {

namespace {

using lanes::F16;
using lanes::M16;
using lanes::U16;

/// Deep enough for 2^30 groups: halving keeps the tree balanced.
constexpr std::size_t deepest = 64;

RayBox united(const RayBox& a, const RayBox& b) {
    return {glm::min(a.low_m, b.low_m), glm::max(a.high_m, b.high_m)};
}

glm::vec3 middle(const PlacedGroup* placed) {
    return 0.5F * (placed->group->box().low_m + placed->group->box().high_m);
}

/// One over a direction's component; a ray along a plane passes it far away instead of nowhere.
float inverse(float a) {
    return 1.0F / (std::abs(a) < 1e-20F ? std::copysign(1e-20F, a) : a);
}

/// The slab test of one ray, its inverse direction known.
bool meets(const RayBox& box, const TracedRay& ray, const glm::vec3& inverse_direction) {
    const glm::vec3 origin(ray.origin_x, ray.origin_y, ray.origin_z);
    const glm::vec3 a = (box.low_m - origin) * inverse_direction;
    const glm::vec3 b = (box.high_m - origin) * inverse_direction;
    const glm::vec3 in = glm::min(a, b), out = glm::max(a, b);
    const float enter = std::max(std::max(in.x, in.y), std::max(in.z, ray.near));
    const float leave = std::min(std::min(out.x, out.y), std::min(out.z, ray.far));
    return enter <= leave * 1.00001F;
}

glm::vec3 inverse_direction_of(const TracedRay& ray) {
    return {inverse(ray.direction_x), inverse(ray.direction_y), inverse(ray.direction_z)};
}

KEYSTEAD_INLINE F16 inverse16(const F16& a) {
    const F16 sign = lanes::choose(a < F16(0.0F), F16(-1e-20F), F16(1e-20F));
    return F16(1.0F) / lanes::choose(lanes::abs(a) < F16(1e-20F), sign, a);
}

struct Slabs {
    F16 x, y, z; ///< one over the directions
};

KEYSTEAD_INLINE void cut(const F16& origin, const F16& inverse_direction, float low, float high,
                         F16& enter, F16& leave) {
    const F16 a = (F16(low) - origin) * inverse_direction;
    const F16 b = (F16(high) - origin) * inverse_direction;
    enter = lanes::max(enter, lanes::min(a, b));
    leave = lanes::min(leave, lanes::max(a, b));
}

KEYSTEAD_INLINE M16 meet(const RayBox& box, const TracedPacket& rays, const Slabs& inverse) {
    F16 enter = rays.near, leave = rays.far;
    cut(rays.origin_x, inverse.x, box.low_m.x, box.high_m.x, enter, leave);
    cut(rays.origin_y, inverse.y, box.low_m.y, box.high_m.y, enter, leave);
    cut(rays.origin_z, inverse.z, box.low_m.z, box.high_m.z, enter, leave);
    return enter <= leave * F16(1.00001F);
}

/// Which child of a node lies first on the way of a ray.
std::uint32_t nearer(const RayTree::Node* children, const glm::vec3& direction) {
    const glm::vec3 apart = children[1].box.low_m + children[1].box.high_m - children[0].box.low_m -
                            children[0].box.high_m;
    return glm::dot(apart, direction) >= 0.0F ? 0U : 1U;
}

glm::vec3 first_direction(const TracedPacket& rays, const M16& active) {
    for (std::size_t i = 0; i < lanes::lane_count; ++i)
        if (active[i]) return {rays.direction_x[i], rays.direction_y[i], rays.direction_z[i]};
    return glm::vec3(0.0F);
}

/// Takes over what a group's members are called in the scene.
KEYSTEAD_INLINE void name_hits(const PlacedGroup& placed, const M16& asked, TracedPacket& rays,
                               U16& mesh) {
    if (!lanes::any(asked && rays.member != U16(ray_miss))) return;
    for (std::size_t i = 0; i < lanes::lane_count; ++i) {
        if (!asked[i] || rays.member[i] == ray_miss) continue;
        mesh.set(i, placed.ids[rays.member[i]]);
        rays.member.set(i, ray_miss);
    }
}

} // namespace

/// Outside the unnamed namespace: functions compiled for several machines need a public name.
KEYSTEAD_SIMD void trace_packet(const RayTree::Node* nodes, TracedPacket& rays, const M16& active,
                                RayOrder order, U16* mesh) {
    const Slabs inverse{inverse16(rays.direction_x), inverse16(rays.direction_y),
                        inverse16(rays.direction_z)};
    const glm::vec3 direction = first_direction(rays, active);
    const std::uint32_t mask = rays.mask[0]; // one for the packet
    std::array<std::uint32_t, deepest> waiting;
    std::size_t count = 0;
    waiting[count++] = 0;
    while (count > 0) {
        const RayTree::Node& node = nodes[waiting[--count]];
        if ((node.mask & mask) == 0) continue;
        const M16 asked = active && meet(node.box, rays, inverse);
        if (!lanes::any(asked)) continue;
        if (node.placed == nullptr) {
            const std::uint32_t first = nearer(nodes + node.first_child, direction);
            waiting[count++] = node.first_child + 1 - first;
            waiting[count++] = node.first_child + first;
        } else if (mesh == nullptr) {
            node.placed->group->blocked(rays, asked, order);
        } else {
            node.placed->group->first_hits(rays, asked, order);
            name_hits(*node.placed, asked, rays, *mesh);
        }
    }
}

RayTree::RayTree(const std::vector<PlacedGroup>& groups) {
    std::vector<const PlacedGroup*> full;
    for (const PlacedGroup& placed : groups)
        if (!placed.group->box().empty()) full.push_back(&placed);
    if (full.empty()) return;
    nodes_.emplace_back();
    build(0, std::move(full));
}

void RayTree::build(std::uint32_t node, std::vector<const PlacedGroup*> groups) {
    RayBox box, middles;
    for (const PlacedGroup* placed : groups) {
        nodes_[node].mask |= placed->group->mask();
        box = united(box, placed->group->box());
        middles = united(middles, {middle(placed), middle(placed)});
    }
    nodes_[node].box = box;
    if (groups.size() == 1) {
        nodes_[node].placed = groups.front();
        return;
    }
    const glm::vec3 size = middles.high_m - middles.low_m;
    const int axis = size.x >= size.y && size.x >= size.z ? 0 : size.y >= size.z ? 1 : 2;
    std::stable_sort(groups.begin(), groups.end(), [&](const PlacedGroup* a, const PlacedGroup* b) {
        return middle(a)[axis] < middle(b)[axis];
    });
    const auto half = groups.begin() + static_cast<std::ptrdiff_t>(groups.size() / 2);
    const auto first = static_cast<std::uint32_t>(nodes_.size());
    nodes_[node].first_child = first;
    nodes_.resize(nodes_.size() + 2);
    build(first, {groups.begin(), half});
    build(first + 1, {half, groups.end()});
}

void RayTree::first_hit(TracedRay& ray, std::uint32_t& mesh) const {
    mesh = ray_miss;
    if (nodes_.empty()) return;
    const glm::vec3 inverse_direction = inverse_direction_of(ray);
    const glm::vec3 direction(ray.direction_x, ray.direction_y, ray.direction_z);
    std::array<std::uint32_t, deepest> waiting;
    std::size_t count = 0;
    waiting[count++] = 0;
    while (count > 0) {
        const Node& node = nodes_[waiting[--count]];
        if ((node.mask & ray.mask) == 0) continue;
        if (!meets(node.box, ray, inverse_direction)) continue;
        if (node.placed == nullptr) {
            const std::uint32_t first = nearer(&nodes_[node.first_child], direction);
            waiting[count++] = node.first_child + 1 - first;
            waiting[count++] = node.first_child + first;
            continue;
        }
        node.placed->group->first_hit(ray);
        if (ray.member == ray_miss) continue;
        mesh = node.placed->ids[ray.member];
        ray.member = ray_miss;
    }
}

bool RayTree::blocked(TracedRay& ray) const {
    if (nodes_.empty()) return false;
    const glm::vec3 inverse_direction = inverse_direction_of(ray);
    std::array<std::uint32_t, deepest> waiting;
    std::size_t count = 0;
    waiting[count++] = 0;
    while (count > 0) {
        const Node& node = nodes_[waiting[--count]];
        if ((node.mask & ray.mask) == 0) continue;
        if (!meets(node.box, ray, inverse_direction)) continue;
        if (node.placed == nullptr) {
            waiting[count++] = node.first_child + 1;
            waiting[count++] = node.first_child;
            continue;
        }
        node.placed->group->blocked(ray);
        if (ray.far < 0.0F) return true; // Embree marks an occluded ray with minus infinity.
    }
    return false;
}

void RayTree::first_hits(TracedPacket& rays, const M16& active, RayOrder order, U16& mesh) const {
    mesh = U16(ray_miss);
    rays.member = U16(ray_miss);
    if (!nodes_.empty()) trace_packet(nodes_.data(), rays, active, order, &mesh);
}

void RayTree::blocked(TracedPacket& rays, const M16& active, RayOrder order) const {
    if (!nodes_.empty()) trace_packet(nodes_.data(), rays, active, order, nullptr);
}

} // namespace keystead
