// The report of the command line: stable keys, unknown values null.
#include "sim/review/report_eyes.h"
#include "sim/review/report_glasses.h"
#include "sim/review/report_meter.h"
#include "sim/review/report_parts.h"
#include "sim/review/report_strays.h"
#include "sim/review/report_tones.h"
#include "sim/review/review.h"

#include <cmath>

namespace keystead {

namespace {

/// Rounded up: so much must be there.
Json at_least(double mass_kg) {
    return std::ceil(mass_kg * 100.0 - 1e-9) / 100.0 + 0.0;
}

const char* word_of(Knuckle knuckle) {
    if (knuckle == Knuckle::tightens) return "tightens";
    return knuckle == Knuckle::loosens ? "loosens" : "none";
}
const char* word_of(Level level) {
    if (level == Level::danger) return "danger";
    return level == Level::warning ? "warning" : "note";
}

Json json_of(const SupportReview& support) {
    const Stability& s = support.stability;
    const bool arm = s.grip_limit_nm > 0.0;
    Json loads = Json::array();
    for (const double load : s.foot_loads_n) loads.push_back(tidy(load));
    Json json;
    json["id"] = support.id;
    json["verdict"] = word_of(s.verdict);
    json["tip_angle_deg"] = tidy(s.tip_angle_deg);
    json["tip_direction_deg"] = tidy(s.tip_direction_deg);
    json["margin_m"] = tidy(s.margin_m);
    json["push_to_tip_n"] = tidy(s.push_to_tip_n);
    json["push_height_m"] = tidy(s.push_height_m);
    json["roll_snag_speed_m_s"] = s.snag_speed_m_s > 0.0 ? tidy(s.snag_speed_m_s) : Json(nullptr);
    json["mass_kg"] = tidy(s.mass_kg);
    json["com_m"] = tidy(s.com_m);
    json["load_kg"] = tidy(s.load_kg);
    json["load_limit_kg"] = tidy(s.load_limit_kg);
    json["foot_loads_n"] = std::move(loads);
    json["bag_needed_kg"] = support.needed.bag.place.empty() && s.verdict != Verdict::stable
                                ? Json(nullptr)
                                : at_least(support.needed.bag.mass_kg);
    json["bag_place"] = text_or_null(support.needed.bag.place);
    json["bag_at_m"] = support.needed.bag.leg >= 0 ? tidy(support.needed.bag.at_m) : Json(nullptr);
    json["bag_beside_counterweight"] = support.needed.after_counterweight;
    json["counterweight_needed_kg"] = arm ? at_least(s.counterweight_needed_kg) : Json(nullptr);
    json["grip_torque_nm"] = arm ? tidy(s.grip_torque_nm) : Json(nullptr);
    json["grip_limit_nm"] = arm ? tidy(s.grip_limit_nm) : Json(nullptr);
    json["knuckle"] = word_of(s.knuckle);
    json["reasons"] = s.reasons;
    json["worst_tip_angle_deg"] = tidy(s.worst_tip_angle_deg);
    json["worst_push_n"] = tidy(s.worst_push_n);
    return json;
}

Json json_of(const LightReview& light) {
    Json json;
    json["id"] = light.id;
    json["position_m"] = tidy(light.position_m);
    json["distance_to_face_m"] = tidy(light.distance_to_face_m);
    json["face_azimuth_deg"] = tidy(light.face_angles.azimuth_deg);
    json["face_elevation_deg"] = tidy(light.face_angles.elevation_deg);
    json["exposure_lx_s"] = tidy(light.exposure_lx_s);
    json["illuminance_lx"] = tidy(light.illuminance_lx);
    json["f_number"] = tidy(light.f_number);
    json["reading"] = light.reading;
    json["stops_from_key"] = tidy(light.stops_from_key);
    json["share"] = tidy(light.share);
    json["apparent_size_deg"] = tidy(light.apparent_size_deg);
    json["penumbra_mm"] = tidy(light.penumbra_mm);
    json["pattern_if_alone"] = name_of(light.pattern_if_alone);
    return json;
}

Json json_of(const PanelReview& panel) {
    return {{"id", panel.id},
            {"exposure_lx_s", tidy(panel.exposure_lx_s)},
            {"stops_from_key", tidy(panel.stops_from_key)},
            {"mostly_from", text_or_null(panel.mostly_from)}};
}

Json nearest_other(const PatternHold& hold) {
    const bool below = -hold.turn_min_deg <= hold.turn_max_deg;
    const double turn = below ? hold.turn_min_deg : hold.turn_max_deg;
    return {{"pattern", name_of(below ? hold.below : hold.above)},
            {"turn_deg", tidy(turn)},
            {"note", "degrees the head would have to turn"}};
}

/// What may be changed alone without another name, and the names beyond: null where as much was
/// tried as is ever tried.
void add_holds(const PortraitReview& portrait, Json& json) {
    struct Entry {
        const char *key, *what;
        HoldRange PatternHolds::*range;
    };
    constexpr Entry entries[] = {
        {"holds_for_turn_deg", "turn", &PatternHolds::turn_deg},
        {"holds_for_nod_deg", "nod", &PatternHolds::nod_deg},
        {"holds_for_key_azimuth_deg", "key_azimuth", &PatternHolds::key_azimuth_deg},
        {"holds_for_key_height_deg", "key_height", &PatternHolds::key_height_deg},
        {"holds_for_key_distance_m", "key_distance", &PatternHolds::key_distance_m}};
    for (const Entry& entry : entries) json[entry.key] = nullptr;
    json["names_beyond"] = nullptr;
    if (!portrait.holds) return;
    const auto beyond = [&](Pattern name) {
        return name == portrait.pattern ? Json(nullptr) : Json(name_of(name));
    };
    Json names;
    for (const Entry& entry : entries) {
        const HoldRange& range = (*portrait.holds).*entry.range;
        json[entry.key] = Json::array({tidy(range.least), tidy(range.most)});
        names[entry.what] = Json::array({beyond(range.below), beyond(range.above)});
    }
    json["names_beyond"] = std::move(names);
}

Json json_of(const PortraitReview& portrait) {
    const bool known = !portrait.key.empty();
    Json json;
    json["key"] = text_or_null(portrait.key);
    json["pattern"] = name_of(portrait.pattern);
    json["side"] = known ? Json(name_of(portrait.side)) : Json(nullptr);
    json["face_azimuth_deg"] = known ? tidy(portrait.face_angles.azimuth_deg) : Json(nullptr);
    json["face_elevation_deg"] = known ? tidy(portrait.face_angles.elevation_deg) : Json(nullptr);
    json["note"] = text_or_null(portrait.note);
    json["lit_triangle"] = nullptr;
    if (portrait.lit_triangle && portrait.pattern == Pattern::rembrandt)
        json["lit_triangle"] = Json{{"area_mm2", tidy(portrait.lit_triangle->area_mm2)},
                                    {"width_mm", tidy(portrait.lit_triangle->width_mm)},
                                    {"height_mm", tidy(portrait.lit_triangle->height_mm)},
                                    {"ring_stops", tidy(portrait.lit_triangle->ring_stops)}};
    json["nearest_other"] = portrait.hold ? nearest_other(*portrait.hold) : Json(nullptr);
    add_holds(portrait, json);
    json["eyes"] = Json::array();
    for (const EyeReview& eye : portrait.eyes) json["eyes"].push_back(eye_json(eye));
    json["pair"] = text_or_null(portrait.pair);
    json["pair_light"] = text_or_null(portrait.pair_light);
    json["glasses"] = glasses_json(portrait.glasses);
    return json;
}

Json json_of(const ExposureReview& exposure) {
    Json json;
    json["face_f_number"] = tidy(exposure.face_f_number);
    json["camera_f_number"] = tidy(exposure.camera_f_number);
    json["stops_off"] = tidy(exposure.stops_off);
    json["key_f_number"] = tidy(exposure.key_f_number);
    json["fill_f_number"] = tidy(exposure.fill_f_number);
    json["ratio_key_to_fill"] = tidy(exposure.ratio_key_to_fill);
    json["stops_key_over_fill"] = tidy(exposure.stops_key_over_fill);
    json["ratio_lit_to_shadow"] = tidy(exposure.ratio_lit_to_shadow);
    json["stops_lit_to_shadow"] = tidy(exposure.stops_lit_to_shadow);
    json["bounce_share"] = tidy(exposure.bounce_share);
    json["bounce_stops_from_key"] = tidy(exposure.bounce_stops_from_key);
    json["clipped_percent"] = exposure.clipped ? tidy(exposure.clipped->percent) : Json(nullptr);
    json["clipped"] = clipped_json(exposure.clipped);
    json["body"] = body_json(exposure.body);
    return json;
}

Json json_of(const SeparationReview& s) {
    return {{"place", s.place},
            {"inside_stops", tidy(s.inside_stops)},
            {"outside_stops", tidy(s.outside_stops)},
            {"difference_stops", tidy(s.difference_stops)},
            {"difference_lstar", tidy(s.difference_lstar)},
            {"verdict", s.verdict},
            {"inside", s.inside_is},
            {"outside", s.outside_is},
            {"inside_reflectance", tidy(s.inside_reflectance)},
            {"outside_reflectance", tidy(s.outside_reflectance)},
            {"outside_mostly_by", text_or_null(s.outside_mostly_by)},
            {"cause", text_or_null(s.cause)}};
}
Json json_of(const FrameReview& f) {
    return {{"id", f.id}, {"part", f.part}, {"in_frame_percent", tidy(f.in_frame_percent)}};
}
Json json_of(const RoomReview& r) {
    return {{"id", r.id},
            {"part", r.part},
            {"clearance_m", tidy(r.clearance_m)},
            {"nearest", r.nearest}};
}
Json json_of(const SpillReview& s) {
    return {{"light", s.light}, {"onto", s.onto}, {"stops_from_key", tidy(s.stops_from_key)}};
}
Json edit_value(const Edit& edit) {
    Result<Json> value = parse_json(edit.value);
    return value ? std::move(value).value() : Json(edit.value);
}
Json json_of(const Finding& f) {
    Json edits = Json::array();
    for (const Edit& edit : f.mend.edits)
        edits.push_back({{"path", edit.path}, {"value", edit_value(edit)}});
    return {{"level", word_of(f.level)},
            {"code", f.code},
            {"about", f.about},
            {"message", f.message},
            {"remedy", text_or_null(f.remedy)},
            {"edits", std::move(edits)}};
}

template <class T>
Json list_of(const std::vector<T>& entries) {
    Json list = Json::array();
    for (const T& entry : entries) list.push_back(json_of(entry));
    return list;
}

} // namespace

std::string review_json(const Review& review) {
    Json json;
    json["set"] = review.set;
    json["version"] = 1;
    json["supports"] = list_of(review.supports);
    json["lights"] = list_of(review.lights);
    json["portrait"] = json_of(review.portrait);
    json["exposure"] = json_of(review.exposure);
    json["separation"] = list_of(review.separation);
    json["background"] = Json{{"stops_from_key", tidy(review.background.stops_from_key)},
                              {"value_8bit", tidy(review.background.value_8bit)},
                              {"evenness_stops", tidy(review.background.evenness_stops)},
                              {"darkest_8bit", tidy(review.background.darkest_8bit)},
                              {"brightest_8bit", tidy(review.background.brightest_8bit)},
                              {"shadows", shadows_json(review.background.shadows)}};
    json["frame"] = list_of(review.frame);
    json["room"] = list_of(review.room);
    json["spill"] = list_of(review.spill);
    json["findings"] = list_of(review.findings);
    json["lens_aims"] = lens_aims_json(review.lens_aims);
    json["panels"] = list_of(review.panels);
    json["meter"] = meter_points_json(review.meter);
    json["shutter"] = shutter_json(review.shutter);
    json["spots"] = spots_json(review.spots);
    json["measured"] = measured_json(review.measured);
    json["cautions"] = review.cautions;
    return print_json(json);
}

} // namespace keystead
