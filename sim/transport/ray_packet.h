// Sixteen rays at a time, for RayScene.
#pragma once

#include "sim/base/lanes.h"
#include "sim/transport/ray_scene.h"

namespace keystead {

/// Sixteen rays in single precision: what pictures cast. Directions need not be unit vectors;
/// `start` and `end` count in lengths of them.
struct alignas(64) RayPacket {
    lanes::V16 origin_m, direction;
    lanes::F16 start, end;
    lanes::M16 active;
};

/// `mesh` is `ray_miss` where nothing was hit or the ray is not active; `u`, `v` as in RayHit.
struct alignas(64) HitPacket {
    lanes::F16 distance, u, v;
    lanes::U16 mesh, triangle;
};

/// Do the rays of a packet run nearly side by side? It only changes how fast the answer comes.
enum class RayOrder : std::uint8_t { coherent, incoherent };

} // namespace keystead
