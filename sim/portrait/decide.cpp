#include "sim/portrait/decide.h"

#include "sim/portrait/thresholds.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>

namespace keystead {

namespace {

namespace limit = pattern_threshold;

using MaybeVerdict = std::optional<Verdict>;

/// What every test looks at.
struct Evidence {
    const FaceMeasures& face;
    const Vec3& to_lamp;
    const FaceLines& lines;
    double nose_depth_mm;
};

std::string percent(double share) {
    return number_text(100.0 * share, 0) + " %";
}
std::string mm(double length) {
    return number_text(length, 0) + " mm";
}
std::string elevation_text(const Vec3& to_lamp) {
    return number_text(std::abs(degrees(std::asin(std::clamp(to_lamp.y, -1.0, 1.0)))), 0) +
           " degrees";
}

MaybeVerdict too_steep(const Evidence& e) {
    const FaceMeasures& f = e.face;
    const bool face_open =
        f.far_lit > limit::toplight_balance * f.near_lit ||
        (f.front_lit < limit::toplight_dark_front && e.to_lamp.z > limit::toplight_forward);
    if (e.to_lamp.y <= limit::toplight_up || f.chin_dark <= limit::toplight_chin_dark ||
        f.forehead_lit <= limit::toplight_forehead ||
        std::max(f.eye_seen[0], f.eye_seen[1]) >= limit::toplight_eye_seen || !face_open)
        return {};
    return Verdict{Pattern::toplight, "The lamp stands " + elevation_text(e.to_lamp) +
                                          " over the face: the eyes see at most " +
                                          percent(std::max(f.eye_seen[0], f.eye_seen[1])) +
                                          " of it and " + percent(f.chin_dark) +
                                          " of the chin is dark."};
}

MaybeVerdict unlit_from_the_front(const Evidence& e) {
    const FaceMeasures& f = e.face;
    if (f.front_lit >= limit::unlit_front) return {};
    if (f.side_lit > limit::rim_side && e.to_lamp.z < limit::rim_behind)
        return Verdict{Pattern::rim, "Only an edge is lit: " + percent(f.front_lit) +
                                         " of the front of the face and " + percent(f.side_lit) +
                                         " of its side."};
    return Verdict{Pattern::none, "The face is unlit: " + percent(f.front_lit) +
                                      " of its front is within two stops of full light, " +
                                      percent(limit::unlit_front) + " needed."};
}

MaybeVerdict from_below(const Evidence& e) {
    if (e.to_lamp.y >= limit::underlight_down || e.to_lamp.z <= limit::underlight_forward)
        return {};
    return Verdict{Pattern::underlight,
                   "The lamp stands " + elevation_text(e.to_lamp) + " below the face."};
}

MaybeVerdict half_dark(const Evidence& e) {
    const FaceMeasures& f = e.face;
    if (f.far_faint >= limit::split_far || f.near_lit <= limit::split_near) return {};
    return Verdict{Pattern::split, "The far half is dark to the midline: " + percent(f.far_faint) +
                                       " of it is lit (" + percent(limit::split_far) +
                                       " allowed), " + percent(f.near_lit) + " of the near half."};
}

/// A limit on an area, grown or shrunk with the face: what shows on a small one is smaller.
double on_this_face(double area_mm2, const FaceLines& lines) {
    const double size = lines.nose_length_mm / limit::nose_length_mm;
    return area_mm2 * size * size;
}

MaybeVerdict no_nose_shadow(const Evidence& e) {
    const FaceMeasures& f = e.face;
    // Noses imported or drawn to extremes: the limit stays one that can be met and missed.
    const double depth = std::clamp(e.nose_depth_mm / limit::nose_depth_mm, 0.5, 1.6);
    const double needed_mm2 = limit::nose_lost_mm2 * depth * depth * depth;
    if (f.nose_lost_mm2 >= needed_mm2 && f.nose_core >= limit::nose_core) return {};
    const bool flat = f.front_lit > limit::flat_front;
    const std::string shadow = "The nose takes away " + number_text(f.nose_lost_mm2, 0) +
                               " mm² of full light and hides " + percent(f.nose_core) +
                               " of the lamp at most (" + number_text(needed_mm2, 0) + " and " +
                               percent(limit::nose_core) + " needed for a shadow that shows)";
    if (flat)
        return Verdict{Pattern::flat,
                       shadow + "; " + percent(f.front_lit) + " of the front is lit."};
    return Verdict{Pattern::none, shadow + ", and only " + percent(f.front_lit) +
                                      " of the front is lit (flat begins at " +
                                      percent(limit::flat_front) + ")."};
}

MaybeVerdict level_shadow(const Evidence& e) {
    const double above_tip = e.face.shadow_height_mm - e.lines.nose_tip_mm;
    if (above_tip <= 0.0) return {};
    return Verdict{Pattern::none, "The nose's shadow lies across the cheek instead of falling: its "
                                  "middle is " +
                                      mm(above_tip) + " above the nose tip."};
}

std::string ring_text(const FaceMeasures& face) {
    return "the ring is " + number_text(face.enclosure.stops(), 1) + " stops under the patch";
}

MaybeVerdict below_the_nose(const Evidence& e) {
    const FaceMeasures& f = e.face;
    const bool joined = f.enclosure.stops() >= limit::joined_stops;
    if (joined || std::abs(f.tip_shift_mm) >= butterfly_shift_mm(e.lines) ||
        f.far_lit < limit::butterfly_balance * f.near_lit)
        return {};
    return Verdict{Pattern::butterfly, "The nose's shadow falls straight down: it lies " +
                                           number_text(std::abs(f.tip_shift_mm), 1) +
                                           " mm off the midline (loop begins at " +
                                           number_text(butterfly_shift_mm(e.lines), 1) + ")" +
                                           (f.lip_touched ? " and touches the lip." : ".")};
}

/// What keeps a closed patch from being the lit triangle; empty where nothing does.
std::string patch_fault(const LitPatch& patch, const FaceLines& lines) {
    const double widest = limit::patch_width * lines.eye_width_mm;
    const double highest = limit::patch_height * lines.nose_length_mm;
    if (patch.peak < limit::patch_level)
        return "its patch is no brighter than " + percent(patch.peak) + " of full light (" +
               percent(limit::patch_level) + " needed)";
    const double needed_mm2 = on_this_face(limit::patch_mm2, lines);
    if (patch.area_mm2 < needed_mm2)
        return "its patch has only " + number_text(patch.area_mm2, 0) + " mm² (" +
               number_text(needed_mm2, 0) + " needed)";
    if (patch.width_mm > widest)
        return "its patch is " + mm(patch.width_mm) + " wide (" + mm(widest) + " allowed)";
    if (patch.height_mm > highest)
        return "its patch is " + mm(patch.height_mm) + " high (" + mm(highest) + " allowed)";
    return {};
}

MaybeVerdict closed_patch(const Evidence& e) {
    if (!e.face.patch) return {};
    const LitPatch& patch = *e.face.patch;
    const std::string joins = "Nose shadow and cheek shadow join: " + ring_text(e.face) + " (" +
                              number_text(limit::joined_stops, 2) + " needed)";
    const std::string fault = patch_fault(patch, e.lines);
    if (!fault.empty()) return Verdict{Pattern::none, joins + ", but " + fault + "."};
    return Verdict{Pattern::rembrandt, joins + " and close off a patch " + mm(patch.width_mm) +
                                           " wide and " + mm(patch.height_mm) + " high."};
}

MaybeVerdict open_shadow(const Evidence& e) {
    const FaceMeasures& f = e.face;
    if (f.far_lit < limit::loop_balance * f.near_lit)
        return Verdict{Pattern::none, "Between names: the far half is " + percent(f.far_lit) +
                                          " lit and nothing closes off a patch on it."};
    if (f.chin_dark >= limit::loop_chin_dark)
        return Verdict{Pattern::none, "Between names: the nose's shadow is open, but " +
                                          percent(f.chin_dark) + " of the chin is dark (" +
                                          percent(limit::loop_chin_dark) + " allowed for loop)."};
    return Verdict{Pattern::loop, "The nose's shadow ends on lit skin: " + ring_text(f) + ", " +
                                      number_text(limit::joined_stops, 2) + " needed to join."};
}

} // namespace

std::string number_text(double value, int decimals) {
    std::array<char, 32> text{};
    std::snprintf(text.data(), text.size(), "%.*f", decimals, value);
    return text.data();
}

double butterfly_shift_mm(const FaceLines& lines) {
    return limit::tip_shift_mm * lines.nose_length_mm / limit::nose_length_mm;
}

Verdict decide_pattern(const FaceMeasures& face, const Vec3& to_lamp, const FaceChart& chart) {
    const Evidence evidence{face, to_lamp, chart.lines, chart.nose_depth_mm()};
    // The order matters: top light leaves the front dark, split hides the nose's shadow, and a
    // level shadow can close a ring that is no triangle.
    for (const auto test : {too_steep, unlit_from_the_front, from_below, half_dark, no_nose_shadow,
                            level_shadow, below_the_nose, closed_patch, open_shadow})
        if (MaybeVerdict verdict = test(evidence)) return *std::move(verdict);
    return {};
}

} // namespace keystead
