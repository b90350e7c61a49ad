// The report in sentences.
#include "sim/review/phrases.h"
#include "sim/review/review.h"

#include <cmath>
#include <sstream>

namespace keystead {

namespace {

/// Pads to a width in characters, not bytes.
std::string padded(const std::string& text, std::size_t width) {
    std::size_t length = 0;
    for (const char c : text)
        if ((static_cast<unsigned char>(c) & 0xC0U) != 0x80U) ++length;
    return length < width ? text + std::string(width - length, ' ') : text;
}

void portrait_section(const Review& review, std::ostringstream& out) {
    const PortraitReview& portrait = review.portrait;
    out << "Portrait\n";
    if (portrait.key.empty()) {
        out << "  " << portrait.note << "\n\n";
        return;
    }
    out << "  " << name_of(portrait.pattern) << " by " << portrait.key << ", "
        << (portrait.side == Side::front ? "from the front"
                                         : std::string(name_of(portrait.side)) + " side")
        << "; seen from the face at " << number(portrait.face_angles.azimuth_deg, 0)
        << "° across and " << number(portrait.face_angles.elevation_deg, 0) << "° up.\n";
    if (!portrait.note.empty()) out << "  " << portrait.note << "\n";
    if (portrait.hold) {
        const PatternHold& hold = *portrait.hold;
        out << "  Holds for head turns from " << signed_number(hold.turn_min_deg, 0) << "° to "
            << signed_number(hold.turn_max_deg, 0) << "°";
        if (hold.below != portrait.pattern || hold.above != portrait.pattern)
            out << "; beyond that " << name_of(hold.below) << " / " << name_of(hold.above);
        out << ".\n";
    }
    for (const EyeReview& eye : portrait.eyes)
        out << "  The " << eye.eye << " eye sees " << number(eye.light_visible_percent, 0)
            << " % of it.\n";
    out << "  Judged on the head form of this set, direct light only.\n\n";
}

void light_section(const Review& review, std::ostringstream& out) {
    out << "Readings at the face, each light alone, flat receptor turned to it\n";
    for (const LightReview& light : review.lights) {
        out << "  " << padded(light.id, 14) << padded(light.reading, 16)
            << padded(light.stops_from_key ? signed_number(*light.stops_from_key, 1) + " stop" : "",
                      12)
            << padded(number(light.distance_to_face_m, 2) + " m", 9)
            << padded(number(light.face_angles.azimuth_deg, 0) + "° / " +
                          number(light.face_angles.elevation_deg, 0) + "°",
                      14)
            << "edge " << number(light.penumbra_mm, 0) << " mm\n";
    }
    out << "  From stored energy and typical efficiencies: believe the differences, check the "
           "level "
           "with a meter.\n\n";
}

void exposure_section(const Review& review, std::ostringstream& out) {
    const ExposureReview& exposure = review.exposure;
    out << "Exposure\n";
    if (exposure.stops_off)
        out << "  Dome at the face toward the camera: f/" << number(*exposure.face_f_number, 1)
            << "; the camera is at f/" << number(exposure.camera_f_number, 1) << " ("
            << signed_number(*exposure.stops_off, 1) << " stop).\n";
    if (exposure.ratio_key_to_fill)
        out << "  Key : fill " << number(*exposure.ratio_key_to_fill, 1) << " : 1 ("
            << stops_text(std::log2(*exposure.ratio_key_to_fill)) << ").\n";
    if (exposure.ratio_lit_to_shadow)
        out << "  Lit side : shadow side " << number(*exposure.ratio_lit_to_shadow, 1) << " : 1 ("
            << stops_text(*exposure.stops_lit_to_shadow) << ").\n";
    out << "  Direct light only: bounce from light walls lifts the shadow side.\n";
    if (review.background.value_8bit)
        out << "  Background: value " << number(*review.background.value_8bit, 0)
            << " of 255, within " << stops_text(*review.background.evenness_stops)
            << " over the frame.\n";
    for (const SeparationReview& place : review.separation) {
        std::string name = place.place;
        for (char& c : name)
            if (c == '_') c = ' ';
        out << "  " << padded(name, 16) << padded(place.verdict, 8)
            << signed_number(place.difference_stops, 1) << " stop against what is behind ("
            << signed_number(place.difference_lstar, 0) << " L*)\n";
    }
    out << "\n";
}

const char* state_word(Verdict verdict) {
    return verdict == Verdict::stable    ? "stands"
           : verdict == Verdict::caution ? "caution"
                                         : "falls";
}

void support_section(const Review& review, std::ostringstream& out) {
    out << "Supports\n";
    for (const SupportReview& support : review.supports) {
        const Stability& s = support.stability;
        out << "  " << padded(support.id, 14) << padded(state_word(s.verdict), 9);
        if (s.margin_m > 0.0)
            out << number(s.tip_angle_deg, 1) << "° to tip, " << number(s.push_to_tip_n, 0)
                << " N at " << number(s.push_height_m, 2) << " m, ";
        out << number(s.mass_kg, 1) << " kg in all, load " << number(s.load_kg, 1) << " of "
            << number(s.load_limit_kg, 1) << " kg\n";
        for (const std::string& reason : s.reasons) out << "      " << reason << "\n";
        if (s.snag_speed_m_s > 0.0)
            out << "      Rolling, it tips at an obstacle from " << number(s.snag_speed_m_s, 1)
                << " m/s; walk it slower, lowered.\n";
    }
    out << "  Masses within ±10 % unless measured, level firm floor, wheels at their worst "
           "swing.\n\n";
}

void fit_section(const Review& review, std::ostringstream& out) {
    out << "Fit\n";
    for (const RoomReview& fit : review.room)
        out << "  " << padded(fit.id, 14) << number(fit.clearance_m, 2) << " m from its "
            << fit.part << " to the " << fit.nearest << "\n";
    for (const FrameReview& seen : review.frame)
        out << "  " << padded(seen.id, 14) << "its " << seen.part << " covers "
            << number(seen.in_frame_percent, 1) << " % of the frame\n";
    if (review.frame.empty()) out << "  No stand, head or panel is in the frame.\n";
    out << "\n";
}

void finding_section(const Review& review, std::ostringstream& out) {
    out << "Findings\n";
    if (review.findings.empty()) out << "  None.\n";
    for (const Finding& finding : review.findings) {
        const char* level = finding.level == Level::danger    ? "danger"
                            : finding.level == Level::warning ? "warning"
                                                              : "note";
        out << "  " << padded(level, 9) << finding.about << ": " << finding.message << "\n";
        if (!finding.remedy.empty()) out << "           " << finding.remedy << "\n";
    }
    out << "\n";
}

} // namespace

std::string review_text(const Review& review) {
    std::ostringstream out;
    out << review.set << "\n\n";
    portrait_section(review, out);
    light_section(review, out);
    exposure_section(review, out);
    support_section(review, out);
    fit_section(review, out);
    finding_section(review, out);
    out << "Cautions\n";
    for (const std::string& caution : review.cautions) out << "  " << caution << "\n";
    return out.str();
}

} // namespace keystead
