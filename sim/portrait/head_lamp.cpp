#include "sim/portrait/face_light.h"

#include <algorithm>

namespace keystead {

Emitter in_head_frame(const FaceChart& chart, const Emitter& emitter, const Mat3& head_axes,
                      const Vec3& head_origin_m) {
    const Mat3 to_head = glm::transpose(head_axes);
    Emitter moved = emitter;
    moved.centre_m = to_head * (emitter.centre_m - head_origin_m);
    moved.axes = to_head * emitter.axes;
    const bool small = std::max(emitter.width_m, emitter.height_m) < smallest_source_m;
    if (!small && emitter.shape != ModifierShape::bare) return moved;
    const Vec3 to_face = chart.landmarks.face - moved.centre_m;
    if (emitter.shape == ModifierShape::bare && glm::length(to_face) > 0.0)
        moved.axes = upright_frame(glm::normalize(to_face));
    // A glowing ball looks like a disc of its own radiance; a face keeps its flux on more area. The
    // plate's exposure stays what it was.
    const double size = std::max({emitter.width_m, emitter.height_m, smallest_source_m});
    const double area = 0.25 * pi * size * size;
    const double seen_area = emitter.shape == ModifierShape::bare
                                 ? 0.25 * pi * emitter.width_m * emitter.width_m
                                 : emitter.area_m2;
    moved.exitance *= seen_area / area;
    moved.area_m2 = area;
    moved.shape = ModifierShape::disc;
    moved.width_m = moved.height_m = size;
    moved.inner_width_m = moved.depth_m = 0.0;
    return moved;
}

} // namespace keystead
