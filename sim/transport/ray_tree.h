// The groups of a ray scene in a tree of boxes, so that a ray asks only those in its way. Internal
// to the ray caster.
#pragma once

#include "sim/transport/ray_group.h"

#include <cstdint>
#include <memory>
#include <vector>

namespace keystead {

/// A group in a scene: ids of its members there.
struct PlacedGroup {
    std::shared_ptr<const RayGroup> group;
    std::vector<std::uint32_t> ids;
};

class RayTree {
public:
    RayTree() = default;
    explicit RayTree(const std::vector<PlacedGroup>& groups);

    /// As RayGroup, over all groups; `mesh` is the id in the scene, `ray_miss` where nothing is
    /// hit.
    void first_hit(TracedRay& ray, std::uint32_t& mesh) const;
    bool blocked(TracedRay& ray) const;
    void first_hits(TracedPacket& rays, const lanes::M16& active, RayOrder order,
                    lanes::U16& mesh) const;
    void blocked(TracedPacket& rays, const lanes::M16& active, RayOrder order) const;

    /// Children lie side by side behind their parent; a leaf's group is not null.
    struct Node {
        RayBox box;
        std::uint32_t mask = 0; ///< bits of anything in it
        std::uint32_t first_child = 0;
        const PlacedGroup* placed = nullptr;
    };

private:
    void build(std::uint32_t node, std::vector<const PlacedGroup*> groups);
    std::vector<Node> nodes_; ///< the root first; empty where no group holds anything
};

} // namespace keystead
