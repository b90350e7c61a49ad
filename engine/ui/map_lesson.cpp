#include "engine/ui/map_lesson.h"

#include "sim/base/frames.h"
#include "sim/portrait/pattern.h"

#include <cmath>

namespace keystead::ui {

namespace {

bool same_grid(const std::optional<Grid>& a, const std::optional<Grid>& b) {
    if (!a || !b) return !a && !b;
    return a->cell == b->cell && a->cell_width_m == b->cell_width_m &&
           a->cell_depth_m == b->cell_depth_m && a->open_fraction == b->open_fraction &&
           a->wall_reflection == b->wall_reflection && a->reading == b->reading &&
           a->nominal_deg == b->nominal_deg;
}

bool same_face(const Emitter& a, const Emitter& b) {
    return a.shape == b.shape && a.width_m == b.width_m && a.height_m == b.height_m &&
           a.inner_width_m == b.inner_width_m && a.depth_m == b.depth_m && a.bulges == b.bulges &&
           a.hot_spot == b.hot_spot && a.deflector == b.deflector && same_grid(a.grid, b.grid) &&
           a.measured == b.measured && a.beam == b.beam && a.front == b.front;
}

/// Every shape but a rectangle is round: turning it about its beam changes nothing.
bool same_turn(const MapFor& a, const MapFor& b) {
    if (a.lamp.shape == ModifierShape::bare) return true;
    const double cosine = std::cos(radians(1.0));
    const bool round = a.lamp.shape != ModifierShape::rectangle;
    return glm::dot(a.turn[2], b.turn[2]) > cosine &&
           (round || std::abs(glm::dot(a.turn[0], b.turn[0])) > cosine);
}

} // namespace

MapFor map_for(const Studio& studio, std::size_t light) {
    const Emitter& lamp = studio.emitters[light];
    const Mat3 to_head = glm::transpose(studio.subject->head_axes);
    const Vec3 way = to_head * (lamp.centre_m - studio.subject->landmarks.face);
    MapFor map{studio.form_key, lamp, glm::length(way)};
    if (map.distance_m <= 0.0) return map;
    Mat3 axes = to_head * lamp.axes;
    Vec3 from = way / map.distance_m;
    // As moved_key has it: turns are told on the sitter's left.
    if (way.x < 0.0) {
        from.x = -from.x;
        for (int i = 0; i < 3; ++i) axes[i].x = -axes[i].x;
    }
    map.turn = glm::transpose(upright_frame(-from)) * axes;
    return map;
}

bool same_map(const MapFor& a, const MapFor& b) {
    return a.form_key == b.form_key && same_face(a.lamp, b.lamp) &&
           std::abs(a.distance_m - b.distance_m) <= 0.005 * a.distance_m && same_turn(a, b);
}

Angles lamp_direction(const Studio& studio, const Vec3& emitter_m) {
    return face_angles(emitter_m - studio.subject->landmarks.face, studio.subject->head_axes);
}

} // namespace keystead::ui
