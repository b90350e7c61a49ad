#include "sim/portrait/face_light.h"

#include <algorithm>

namespace keystead {

namespace {

/// A glowing ball looks like a disc of its own radiance; a small face keeps its flux on more area.
/// The exposure of a plate that faces it stays what it was.
void widen_to_disc(Emitter& emitter) {
    const double size = std::max({emitter.width_m, emitter.height_m, smallest_source_m});
    const double area = 0.25 * pi * size * size;
    const double seen_area = emitter.shape == ModifierShape::bare
                                 ? 0.25 * pi * emitter.width_m * emitter.width_m
                                 : emitter.area_m2;
    emitter.exitance *= seen_area / area;
    emitter.area_m2 = area;
    emitter.shape = ModifierShape::disc;
    emitter.width_m = emitter.height_m = size;
    emitter.inner_width_m = emitter.depth_m = emitter.deflector = 0.0;
    emitter.front = {}; // a stand-in of another size has no rim or flaps that would fit it
}

} // namespace

Emitter in_head_frame(const FaceChart& chart, const Emitter& emitter, const Mat3& head_axes,
                      const Vec3& head_origin_m) {
    const Mat3 to_head = glm::transpose(head_axes);
    Emitter moved = emitter;
    moved.centre_m = to_head * (emitter.centre_m - head_origin_m);
    moved.axes = to_head * emitter.axes;
    const bool bare = emitter.shape == ModifierShape::bare;
    const Vec3 to_face = chart.landmarks.face - moved.centre_m;
    if (bare && glm::length(to_face) > 0.0) moved.axes = upright_frame(glm::normalize(to_face));
    if (bare || std::max(emitter.width_m, emitter.height_m) < smallest_source_m)
        widen_to_disc(moved);
    // The points of a face are not symmetric: a lamp mirrored about the nose gets mirrored points.
    if (moved.centre_m.x < 0.0) moved.axes[0] = -moved.axes[0];
    return moved;
}

} // namespace keystead
