// The review in sentences, with the assumption that matters most under each part.
#include "sim/light/stops.h"
#include "sim/review/findings.h"
#include "sim/review/report_eyes.h"
#include "sim/review/report_glasses.h"
#include "sim/review/report_meter.h"
#include "sim/review/report_parts.h"
#include "sim/review/report_strays.h"
#include "sim/review/report_tones.h"
#include "sim/review/review.h"
#include "sim/review/say.h"
#include "sim/review/tone.h"

#include <cmath>

namespace keystead {

namespace {

const char* stands_word(Verdict verdict) {
    if (verdict == Verdict::stable) return "stands";
    return verdict == Verdict::caution ? "caution" : "falls";
}

std::size_t widest_id(const Review& review) {
    std::size_t width = 6;
    for (const SupportReview& support : review.supports) width = std::max(width, support.id.size());
    return width + 2;
}

std::string support_line(const SupportReview& support, std::size_t width) {
    const Stability& s = support.stability;
    std::string line = "  " + padded(support.id, width) + padded(stands_word(s.verdict), 9);
    if (s.margin_m > 0.0)
        line += "tips at " + say::number(s.tip_angle_deg, 1) + "° or a push of " +
                say::with_unit(s.push_to_tip_n, 0, "N") + " at " +
                say::with_unit(s.push_height_m, 2, "m");
    else
        line += "the load is " + say::with_unit(-s.margin_m, 2, "m") + " outside the feet";
    line += "; " + say::with_unit(s.mass_kg, 1, "kg") + " in all, carries " +
            say::number(s.load_kg, 1) + " of " + say::with_unit(s.load_limit_kg, 1, "kg");
    if (s.snag_speed_m_s > 0.0)
        line += "; roll it under " + say::with_unit(s.snag_speed_m_s, 1, "m/s");
    return line + ".\n";
}

std::string supports_text(const Review& review) {
    std::string text = "Supports\n";
    for (const SupportReview& support : review.supports)
        text += support_line(support, widest_id(review));
    return text +
           "  (Assumes a level firm floor and masses within 10 % unless measured; verdicts are "
           "taken at the bad end, figures as written.)\n";
}

std::string light_line(const LightReview& light, std::size_t width) {
    std::string line = "  " + padded(light.id, width) + padded(light.reading, 14);
    if (light.stops_from_key)
        line += padded(say::signed_number(*light.stops_from_key, 1), 6);
    else
        line += padded("", 6);
    return line + padded(say::number(100.0 * light.share, 0) + " %", 6) + "at " +
           say::with_unit(light.distance_to_face_m, 2, "m") + ", " +
           say::signed_number(light.face_angles.azimuth_deg, 0) + "° round the face, " +
           say::signed_number(light.face_angles.elevation_deg, 0) + "° up; " +
           say::number(light.apparent_size_deg, 0) + "° wide, nose edge " +
           say::with_unit(light.penumbra_mm, 0, "mm") +
           "; alone: " + name_of(light.pattern_if_alone) + ".\n";
}

std::string lights_text(const Review& review) {
    const std::size_t width = widest_id(review);
    std::string text = "Light at the face\n  " + padded("", width) + padded("reading", 14) +
                       padded("stops", 6) + "share\n";
    for (const LightReview& light : review.lights) text += light_line(light, width);
    return text +
           "  (Flat receptor at the nose root toward each light alone; stops from the key; "
           "share of a dome toward the camera, with what walls and other surfaces send on of "
           "each; the reading itself is direct light only.)\n";
}

std::string panels_text(const Review& review) {
    if (review.panels.empty()) return {};
    std::string text = "Panels\n";
    for (const PanelReview& panel : review.panels) {
        text += "  " + padded(panel.id, widest_id(review));
        if (panel.stops_from_key)
            text += "gives the face " + say::signed_number(*panel.stops_from_key, 1) +
                    " stops from the key, mostly light of " + panel.mostly_from + ".\n";
        else
            text += "sends no light to the face.\n";
    }
    return text + "  (Flat receptor at the face toward the panel; one bounce, counted as fill.)\n";
}

std::string holds_text(const PatternHolds& holds, Pattern here) {
    const auto degrees = [](double deg) { return say::signed_number(deg, 0) + "°"; };
    const auto metres = [](double m) { return say::with_unit(m, 2, "m"); };
    const auto line = [&](const char* what, const HoldRange& range, const auto& value) {
        const auto end = [&](double at, Pattern other) {
            return value(at) + (other == here ? " (as far as was tried)"
                                              : std::string(" (then ") + name_of(other) + ")");
        };
        return std::string("  ") + what + " from " + end(range.least, range.below) + " to " +
               end(range.most, range.above) + ".\n";
    };
    return line("Holds for head turns", holds.turn_deg, degrees) +
           line("Holds for nods", holds.nod_deg, degrees) +
           line("Holds for the key round the face", holds.key_azimuth_deg, degrees) +
           line("Holds for the key's height over the face", holds.key_height_deg, degrees) +
           line("Holds for the key", holds.key_distance_m, metres);
}

std::string portrait_text(const PortraitReview& portrait) {
    if (portrait.key.empty()) return "Portrait\n  No light reaches the face.\n";
    std::string text = "Portrait\n  " + std::string(name_of(portrait.pattern)) + ", " +
                       name_of(portrait.side) + " side, made by " + portrait.key + ": " +
                       say::signed_number(portrait.face_angles.azimuth_deg, 0) +
                       "° round the nose, " +
                       say::signed_number(portrait.face_angles.elevation_deg, 0) + "° up.\n";
    if (!portrait.pair.empty())
        text += "  With " + portrait.pair_light + ": " + portrait.pair + ".\n";
    if (!portrait.note.empty()) text += "  " + portrait.note + "\n";
    if (portrait.lit_triangle && portrait.pattern == Pattern::rembrandt)
        text += "  Lit triangle " + say::number(portrait.lit_triangle->width_mm, 0) + " × " +
                say::with_unit(portrait.lit_triangle->height_mm, 0, "mm") + ".\n";
    if (portrait.holds) text += holds_text(*portrait.holds, portrait.pattern);
    return text + eyes_text(portrait.eyes) + glasses_text(portrait.glasses) +
           "  (Direct light on this generated face; the sitter's own may differ. A cornea of 7.9 "
           "mm "
           "radius mirrors lights and lit panels.)\n";
}

std::string exposure_text(const ExposureReview& e) {
    std::string text = "Exposure\n";
    if (!e.face_f_number) return text + "  Nothing to meter at the face.\n";
    text += "  The face reads " + meter_notation(*e.face_f_number) + ", the camera is at f/" +
            nominal_f_number(e.camera_f_number) + ": " + say::signed_number(*e.stops_off, 1) +
            " stops.\n";
    if (e.ratio_key_to_fill)
        text += "  Key to fill " + say::number(*e.ratio_key_to_fill, 1) + ":1 (K:F), " +
                say::stops(*e.stops_key_over_fill) + "; lit to shadow side " +
                say::number(*e.ratio_lit_to_shadow, 1) + ":1 ((K+F):F), " +
                say::stops(*e.stops_lit_to_shadow) + ". Key alone " +
                meter_notation(*e.key_f_number) + ", fill alone " +
                meter_notation(*e.fill_f_number) + ".\n";
    else
        text += "  No fill in front of the ears: no ratio to give.\n";
    if (e.bounce_stops_from_key)
        text += "  By way of walls, floor, background and sitter the shadow side gets " +
                say::signed_number(*e.bounce_stops_from_key, 1) + " stops from the key; " +
                say::number(100.0 * e.bounce_share, 0) + " % of the face's reading came so.\n";
    return text + tones_text(e) +
           "  (Dome at the face toward the camera for exposure; key and fill read flat, each "
           "alone, all other lights in front of the ears counted as fill, and what panels and "
           "other surfaces send on: bounce by a flat receptor turned 60° to the shadow side.)\n";
}

std::string separation_text(const Review& review) {
    std::string text = "Separation and background\n";
    for (const SeparationReview& s : review.separation)
        text += "  " + padded(place_words(s.place), 40) + padded(s.verdict, 8) +
                say::signed_number(s.difference_stops, 1) + " stops, ΔL* " +
                say::signed_number(s.difference_lstar, 0) +
                (s.cause.empty() ? "" : ": " + s.cause) + "\n";
    const BackgroundReview& b = review.background;
    if (b.value_8bit)
        text += "  Background " + say::number(*b.value_8bit, 0) + " of 255" +
                (b.stops_from_key ? ", light on it " + say::signed_number(*b.stops_from_key, 1) +
                                        " stops from the key"
                                  : "") +
                (b.evenness_stops ? ", uneven by " + say::stops(*b.evenness_stops) + " (" +
                                        say::number(*b.darkest_8bit, 0) + " to " +
                                        say::number(*b.brightest_8bit, 0) + ")"
                                  : "") +
                ".\n";
    else
        text += "  No background in the picture.\n";
    return text + "  (Parts from " + say::number(parts_stops, 0) + " stop or ΔL* " +
           say::number(parts_lstar, 0) + ", weak from ΔL* " + say::number(weak_lstar, 0) +
           "; direct and bounced light, gloss included.)\n";
}

std::string room_text(const Review& review) {
    std::string text = "Room and frame\n";
    const RoomReview* tightest = nullptr;
    for (const RoomReview& room : review.room)
        if (tightest == nullptr || room.clearance_m < tightest->clearance_m) tightest = &room;
    if (tightest != nullptr)
        text += "  Tightest: the " + tightest->part + " of " + tightest->id + ", " +
                say::with_unit(tightest->clearance_m, 2, "m") + " from the " + tightest->nearest +
                ".\n";
    if (review.frame.empty()) text += "  No gear shows in the picture.\n";
    for (const FrameReview& frame : review.frame)
        text += "  The " + frame.part + " of " + frame.id + " shows (" +
                say::number(frame.in_frame_percent, 1) + " % of the frame).\n";
    return text;
}

std::string findings_text(const Review& review) {
    std::string text = "Findings\n";
    for (const Finding& f : review.findings) {
        const char* mark = f.level == Level::danger    ? "DANGER "
                           : f.level == Level::warning ? "WARNING"
                                                       : "note   ";
        text += "  " + std::string(mark) + "  " + f.about + ": " + f.message +
                (f.remedy.empty() ? "" : " " + f.remedy) + "\n";
    }
    if (review.findings.empty()) text += "  Nothing to report. That is not a promise.\n";
    return text;
}

} // namespace

std::string review_text(const Review& review) {
    std::string text = review.set.empty() ? "A set without a name\n\n" : review.set + "\n\n";
    text += findings_text(review) + "\n" + supports_text(review) + "\n" + lights_text(review) +
            "\n" + panels_text(review) + (review.panels.empty() ? "" : "\n") +
            portrait_text(review.portrait) + "\n" + exposure_text(review.exposure) + "\n" +
            meter_points_text(review) + "\n" + shutter_text(review.shutter) + "\n" +
            spots_text(review.spots) + "\n" + measured_text(review) +
            (review.measured.rows.empty() ? "" : "\n") + separation_text(review) + "\n" +
            strays_text(review) + (strays_text(review).empty() ? "" : "\n") + room_text(review) +
            "\nCautions\n";
    for (const std::string& caution : review.cautions) text += "  " + caution + "\n";
    return text;
}

} // namespace keystead
