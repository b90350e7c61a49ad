// One lamp on one grid of the chart: shared by the reading, the combined reading and the walk.
#pragma once

#include "sim/portrait/face_light.h"
#include "sim/portrait/room_shade.h"

namespace keystead {

/// `emitter` and `light` are in the head's frame; `light` was traced over `grid`.
PatternReading read_face(const FaceChart& chart, const ChartGrid& grid, const Emitter& emitter,
                         const FaceLight& light);

/// Fills in what each pupil sees of the lamp.
void look_from_eyes(const FaceChart& chart, const Emitter& emitter, PatternReading& reading);

/// With what stands in the room in the lamp's way too; `open` is the same light read by
/// read_light_on_face, and what comes back where nothing stands there.
std::shared_ptr<const LightOnFace>
read_light_in_room(const FaceChart& chart, const Emitter& emitter, const FaceRoom& room,
                   const std::shared_ptr<const LightOnFace>& open);

/// What the light of `read_light_on_face` does to the places of the chart's fine grid, for an
/// exitance of 1 and full power.
const FaceLight& traced_light(const LightOnFace& face);

} // namespace keystead
