#include "engine/ui/words.h"

#include "engine/ui/quantity.h"
#include "sim/base/frames.h"
#include "sim/light/grid.h"
#include "sim/set/catalogue.h"
#include "sim/support/wording.h"

#include <algorithm>
#include <cmath>

namespace keystead::ui {

namespace {

std::string metres(double value) {
    return number_text(value, 2) + " m";
}

const char* kind_name(SupportKind kind) {
    switch (kind) {
    case SupportKind::low:
        return "low stand";
    case SupportKind::standard:
        return "light stand";
    case SupportKind::century:
        return "century stand";
    case SupportKind::roller:
        return "roller stand";
    case SupportKind::boom:
        return "boom stand";
    }
    return "stand";
}

std::string capital(std::string words) {
    if (!words.empty() && words[0] >= 'a' && words[0] <= 'z')
        words[0] = static_cast<char>(words[0] - 'a' + 'A');
    return words;
}

template <class T>
void look_up(const std::vector<CatalogueEntry<T>>& entries, const std::string& id,
             std::string& name) {
    if (const auto* entry = find_entry(entries, id)) name = entry->name;
}

} // namespace

std::string entry_name(const std::string& id) {
    std::string name = id;
    const Catalogue& all = catalogue();
    look_up(all.supports, id, name);
    look_up(all.arms, id, name);
    look_up(all.counterweights, id, name);
    look_up(all.bags, id, name);
    look_up(all.heads, id, name);
    look_up(all.modifiers, id, name);
    look_up(all.grids, id, name);
    return name;
}

std::string grid_words(const Grid& grid) {
    // From the axis: where a cell's near wall covers its far mouth.
    const double angle = cutoff_half_angle_deg(cell_ratio(grid));
    return (grid.cell == GridCell::round ? "honeycomb, black beyond "
                                         : "egg-crate, black beyond ") +
           number_text(angle, 0) + "°";
}

const char* panel_words(PanelKind kind) {
    switch (kind) {
    case PanelKind::reflector:
        return "reflector";
    case PanelKind::flag:
        return "flag";
    case PanelKind::v_flat:
        return "V-flat";
    case PanelKind::scrim:
        return "scrim";
    case PanelKind::cutter:
        break;
    }
    return "cutter";
}

std::string modifier_words(const Modifier& m) {
    std::string words;
    switch (m.shape) {
    case ModifierShape::bare:
        words = "bare lamp";
        break;
    case ModifierShape::sphere:
        words = "ball " + metres(m.width_m);
        break;
    case ModifierShape::disc:
        words = (m.depth_m > 0.02 && m.width_m < 0.75 ? "dish " : "disc ") + metres(m.width_m);
        break;
    case ModifierShape::ring:
        words = "ring " + metres(m.width_m);
        break;
    case ModifierShape::octagon:
        words = "octa " + metres(m.width_m);
        break;
    case ModifierShape::umbrella:
        words =
            (m.umbrella == UmbrellaKind::shoot_through ? "shoot-through umbrella " : "umbrella ") +
            metres(m.width_m);
        break;
    case ModifierShape::rectangle: {
        const double longer = std::max(m.width_m, m.height_m),
                     shorter = std::min(m.width_m, m.height_m);
        words = (longer > 2.0 * shorter ? "strip " : "softbox ") + number_text(m.width_m, 2) +
                " × " + metres(m.height_m);
    }
    }
    if (m.grid) words += ", gridded";
    if (m.barn_doors) words += ", barn doors";
    return words;
}

std::string support_words(const Support& support) {
    std::string words = kind_name(support.kind);
    if (support.arm) words += " with an arm";
    return words;
}

std::string head_words(const Head& head) {
    if (head.kind == HeadKind::continuous)
        return "continuous " + number_text(head.lumens, 0) + " lm";
    const std::string power = head.power_stops_below < 0.05
                                  ? "full"
                                  : number_text(head.power_stops_below, 1) + " below full";
    return "flash " + number_text(head.energy_ws, 0) + " Ws, " + power;
}

std::string place_words(const Drawn& drawn, std::size_t light, Units units) {
    const Subject& s = drawn.set.subject;
    const Vec3 way = drawn.poses[light].emitter_m - drawn.landmarks.face;
    if (glm::length(way) < 1e-6) return {};
    const Mat3 head = head_rotation(s.head_turn_deg, s.head_nod_deg, s.head_roll_deg);
    const Angles of_face = angles_of(glm::transpose(head) * way);
    return drawn_length(glm::length(way), units) + " to the face, " +
           number_text(std::abs(of_face.azimuth_deg), 0) + "° round from the nose, " +
           number_text(std::abs(of_face.elevation_deg), 0) + "° " +
           (of_face.elevation_deg < 0.0 ? "below it" : "above it");
}

const std::vector<LandmarkName>& landmark_names() {
    static const std::vector<LandmarkName> names{{"face", "face"},
                                                 {"nose", "nose"},
                                                 {"chin", "chin"},
                                                 {"left_cheek", "left cheek"},
                                                 {"right_cheek", "right cheek"},
                                                 {"hair_top", "top of the hair"},
                                                 {"chest", "chest"}};
    return names;
}

std::string aim_words(const Aim& aim) {
    std::string words = "a fixed direction";
    if (aim.kind == AimKind::point) words = "a point of the room";
    if (aim.kind == AimKind::landmark) {
        words = aim.landmark;
        for (const LandmarkName& name : landmark_names())
            if (aim.landmark == name.word) words = name.shown;
    }
    if (std::abs(aim.feather_deg) > 0.05)
        words += ", feathered " + number_text(aim.feather_deg, 0) + "°";
    return words;
}

std::string bag_place_words(const Bag& bag) {
    if (!bag.hanging) return "resting on the floor: counts nothing";
    if (bag.place == BagPlace::column) return "hanging at the column";
    if (bag.place == BagPlace::tail) return "hanging on the tail of the arm";
    return "hanging on leg " + std::to_string(bag.leg + 1);
}

std::string verdict_head(const Stability& s, const Vec2& base_m) {
    const std::string angle = number_text(std::max(0.0, s.worst_tip_angle_deg), 1) + "°";
    if (s.verdict == Verdict::stable)
        return "Stands, " + number_text(s.tip_angle_deg, 1) + "° to tip";
    if (s.worst_margin_m <= 0.0) return "Falls " + toward_words(s.tip_direction_deg, base_m);
    if (s.verdict == Verdict::unstable) return "Does not stand: " + angle + " to tip";
    return "Caution, " + angle + " to tip";
}

std::string verdict_body(const Stability& s, const Vec2& base_m) {
    if (s.verdict != Verdict::stable) {
        std::string words;
        const std::string said = verdict_head(s, base_m) + ": ";
        for (std::string reason : s.reasons) {
            // The head has said this much already.
            if (reason.rfind(said, 0) == 0) reason = capital(reason.substr(said.size()));
            words += (words.empty() ? "" : " ") + reason;
        }
        if (!words.empty()) return words;
    }
    return "Tips first " + toward_words(s.tip_direction_deg, base_m) + ". A push of " +
           number_text(s.push_to_tip_n, 0) + " N at the lamp is enough to do it.";
}

std::string verdict_assumption(const Support& support, const StabilityLimits& limits) {
    std::string words = support.measured_masses
                            ? "Masses as measured"
                            : "Masses ±" + number_text(100.0 * limits.mass_uncertainty, 0) + " %";
    if (support.base.wheels) words += ", wheels at their worst swing";
    return words + ". Level floor, no wind, nobody leaning on it. Makers' ratings and local codes "
                   "come first.";
}

std::string f_words(double f_number) {
    const bool whole = f_number >= 10.0 || std::abs(f_number - std::round(f_number)) < 0.05;
    return "f/" + number_text(f_number, whole ? 0 : 1);
}

std::string stops_words(double stops) {
    return number_text(stops, 1) + " stop";
}

std::vector<std::string> caption_parts(const Review& review) {
    std::vector<std::string> parts;
    const PortraitReview& portrait = review.portrait;
    if (portrait.key.empty()) return {"no light on the face"};
    parts.emplace_back(portrait.pattern == Pattern::none ? "no pattern"
                                                         : name_of(portrait.pattern));
    parts.push_back(portrait.side == Side::front ? "lit from the front"
                                                 : std::string(name_of(portrait.side)) + " side");
    for (const LightReview& light : review.lights)
        if (light.id == portrait.key && !light.reading.empty()) parts.push_back(light.reading);
    if (review.exposure.ratio_lit_to_shadow)
        parts.push_back("lit : shadow " + number_text(*review.exposure.ratio_lit_to_shadow, 1));
    return parts;
}

std::string hold_words(const Review& review) {
    if (!review.portrait.hold) return {};
    const PatternHold& hold = *review.portrait.hold;
    const auto signed_deg = [](double deg) {
        return (deg > 0.0 ? "+" : "") + number_text(deg, 0) + "°";
    };
    return "holds " + signed_deg(hold.turn_min_deg) + " to " + signed_deg(hold.turn_max_deg);
}

} // namespace keystead::ui
