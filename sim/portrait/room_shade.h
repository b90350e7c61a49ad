// What stands in the room between a lamp and the face: flags, panels, stands. The chart itself
// knows only the head and what it wears.
#pragma once

#include "sim/portrait/face_light.h"
#include "sim/transport/ray_scene.h"

#include <optional>

namespace keystead {

/// The room that a head stands in.
struct FaceRoom {
    const RayScene* rays = nullptr; ///< of the posed scene; null: nothing stands there
    Mat3 head_axes{1.0};
    Vec3 head_origin_m{0.0};
};

/// `light`, traced over `grid`, less what the room keeps off each place: of what the head leaves
/// and of what it takes alike, as both do not know of each other. `open_level` and `plate_exposure`
/// stay. `lamp` is in the head's frame. Nothing where nothing stands in between: that costs some
/// hundred rays.
std::optional<FaceLight> shaded_by_room(const FaceChart& chart, const ChartGrid& grid,
                                        const Emitter& lamp, const FaceRoom& room,
                                        const FaceLight& light);

} // namespace keystead
