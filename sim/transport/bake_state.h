// What a bake knows of a scene: points, where their paths landed, what each light sent there.
#pragma once

#include "sim/transport/bake.h"
#include "sim/transport/bake_points.h"
#include "sim/transport/light_path.h"
#include "sim/transport/scene_change.h"

#include <cstdint>
#include <memory>
#include <string>
#include <vector>

namespace keystead {

/// Follows from the mesh alone: shared between bakes.
struct BakeLayout {
    std::shared_ptr<const Mesh> mesh;
    double spacing_m = 0.0;
    std::vector<BakePoint> points;
    BakeShares shares;
    std::vector<std::uint32_t> nearest; ///< by vertex: the point that it takes most of

    std::size_t blocks() const {
        return (points.size() + lanes::lane_count - 1) / lanes::lane_count;
    }
};

/// One a part of the scene. A packet is the same path of sixteen points next to each other: they
/// run nearly side by side. Packets are kept in the order of blocks of points, `paths` a block.
struct BakePart {
    std::string name; ///< owner, part, and which of several
    Material material;
    std::uint32_t mask = 0;
    MeshBox box;
    std::shared_ptr<const BakeLayout> layout;
    std::unique_ptr<light_path::Landings[]> landings; ///< one a packet
    std::unique_ptr<float[]> direct; ///< sixteen a packet and emitter: irradiance where it landed
};

struct BakeState {
    std::size_t paths = 0; ///< a point
    double spacings_m[3] = {0.0, 0.0, 0.0};
    std::vector<std::uint64_t> emitters; ///< keys of their geometry
    std::vector<BakePart> parts;         ///< in the scene's order
};

} // namespace keystead
