// A lamp's points for sixteen at a time, and what each of them sends a receptor: the kernel under
// readings.
#pragma once

#include "sim/base/lanes.h"
#include "sim/light/emitter.h"
#include "sim/light/meter.h"

#include <span>
#include <vector>

namespace keystead {

/// Sixteen points of a face, metres in the room; lanes past the last have no area.
struct alignas(64) PointBlock {
    lanes::V16 position_m, normal;
    lanes::F16 area_m2, relative_exitance;
};

std::vector<PointBlock> blocks_of(std::span<const EmitterPoint> points);

/// What each point of the lamp sends the receptor at full power, 0 where something is in the way:
/// L cosθ dA / d² times the receptor's response. `shares` is sixteen times as long as `points`;
/// `rays` may be null: nothing shades. Single precision inside.
void seen_shares(const Emitter& emitter, std::span<const PointBlock> points, const Probe& probe,
                 const RayScene* rays, std::span<float> shares);

/// Their sum.
double seen_exposure(const Emitter& emitter, std::span<const PointBlock> points, const Probe& probe,
                     const RayScene* rays);

} // namespace keystead
