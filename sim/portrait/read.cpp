#include "sim/portrait/read.h"

#include "sim/portrait/decide.h"
#include "sim/portrait/thresholds.h"

#include <cmath>

namespace keystead {

namespace {

namespace limit = pattern_threshold;

void copy_measures(const FaceMeasures& face, double sign, PatternReading& reading) {
    reading.near_lit = face.near_lit;
    reading.far_lit = face.far_lit;
    reading.front_lit = face.front_lit;
    reading.side_lit = face.side_lit;
    reading.far_faint = face.far_faint;
    reading.lost_light_mm2 = face.nose_lost_mm2;
    reading.tip_shift_mm = sign * face.tip_shift_mm;
    reading.ring_stops = face.enclosure.stops();
    reading.chin_dark = face.chin_dark;
    reading.forehead_lit = face.forehead_lit;
    reading.lip_touched = face.lip_touched;
    reading.shadow_height_mm = face.shadow_height_mm;
    reading.nose_core = face.nose_core;
    reading.hair_lost_mm2 = face.hair_lost_mm2;
}

/// The name on the other side of a border that lies close, empty where none does.
std::string close_name(const PatternReading& reading, const FaceLines& lines) {
    const double ring_left = reading.ring_stops - limit::joined_stops;
    const double shift_left = std::abs(reading.tip_shift_mm) - butterfly_shift_mm(lines);
    const bool near_joining = std::abs(ring_left) < limit::border_stops;
    const bool near_midline = std::abs(shift_left) < limit::border_shift_mm;
    if (reading.pattern == Pattern::rembrandt && near_joining) return "loop";
    if (reading.pattern == Pattern::loop && near_joining) return "Rembrandt";
    if (reading.pattern == Pattern::loop && near_midline) return "butterfly";
    if (reading.pattern == Pattern::butterfly && near_midline) return "loop";
    return {};
}

void set_border(PatternReading& reading, const FaceLines& lines) {
    const std::string name = close_name(reading, lines);
    reading.near_border = !name.empty();
    if (reading.near_border) reading.note += " Close to " + name + ".";
}

} // namespace

void look_from_eyes(const FaceChart& chart, const Emitter& emitter, PatternReading& reading) {
    for (int eye = 0; eye < 2; ++eye) {
        const EyeView view = eye_view(chart, emitter, eye == 0);
        reading.eye_visible[eye] = view.seen;
        reading.eye_by_brow[eye] = view.by_brow;
        reading.eye_by_nose[eye] = view.by_nose;
        reading.eye_by_hair[eye] = view.by_hair;
    }
}

PatternReading read_face(const FaceChart& chart, const ChartGrid& grid, const Emitter& emitter,
                         const FaceLight& light) {
    PatternReading reading;
    reading.face_angles = angles_of(light.to_lamp);
    if (light.plate_exposure <= 0.0 && emitter.power > 0.0) {
        reading.note = "Nothing of this lamp arrives at the face: it points elsewhere.";
        return reading;
    }
    const MirroredChart view(grid, light.to_lamp.x);
    const FaceMeasures face = measure_face(chart, view, light);
    copy_measures(face, view.sign(), reading);
    const Verdict verdict = decide_pattern(face, light.to_lamp, chart);
    reading.pattern = verdict.pattern;
    reading.note = verdict.note;
    if (verdict.pattern == Pattern::rembrandt) {
        reading.patch = face.patch;
        reading.patch_wide = face.patch->width_mm > limit::patch_wide * chart.lines.eye_width_mm;
    }
    if (light.to_lamp.z > 0.0)
        reading.tip_fall_mm = tip_shadow_mm(chart.nose_depth_mm(), reading.face_angles);
    set_border(reading, chart.lines);
    return reading;
}

PatternReading read_pattern(const FaceChart& chart, const Emitter& emitter, const Mat3& head_axes,
                            const Vec3& head_origin_m) {
    const Emitter lamp = in_head_frame(chart, emitter, head_axes, head_origin_m);
    PatternReading reading =
        read_face(chart, chart.fine, lamp, light_on_face(chart, chart.fine, lamp));
    look_from_eyes(chart, lamp, reading);
    return reading;
}

} // namespace keystead
