// The rays of a lamp over a face chart, sixteen places at a time: the kernel under light_on_face.
#pragma once

#include "sim/portrait/face_light.h"

#include <vector>

namespace keystead {

/// Fills every field by cell of `result`, which has the size of `grid`. Levels are given over
/// `full_plate`: the exposure of the plate facing the lamp, power left out. Single precision
/// inside; threads change nothing.
void trace_lamp(const FaceChart& chart, const ChartGrid& grid, const Emitter& emitter,
                const std::vector<EmitterPoint>& points, double full_plate, FaceLight& result);

/// What kept a ray from the lamp.
enum class Blocker : std::uint8_t { nothing, nose, brow, hair, other };
Blocker blocker_of(Region region);

} // namespace keystead
