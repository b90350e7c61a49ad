// The report as one JSON object. Its keys are a contract: add, never rename.
#include "sim/review/review.h"

#include <cmath>
#include <nlohmann/json.hpp>

namespace keystead {

namespace {

using Json = nlohmann::ordered_json;

template <class T>
Json maybe(const std::optional<T>& value) {
    return value ? Json(*value) : Json(nullptr);
}

Json vector_of(const Vec3& v) {
    return Json::array({v.x, v.y, v.z});
}

const char* name_of(Verdict verdict) {
    return verdict == Verdict::stable    ? "stable"
           : verdict == Verdict::caution ? "caution"
                                         : "unstable";
}

const char* name_of(Knuckle knuckle) {
    return knuckle == Knuckle::tightens  ? "tightens"
           : knuckle == Knuckle::loosens ? "loosens"
                                         : "none";
}

const char* name_of(Level level) {
    return level == Level::danger ? "danger" : level == Level::warning ? "warning" : "note";
}

Json support_json(const SupportReview& support) {
    const Stability& s = support.stability;
    const Ballast& bag = s.bag_there.place.empty() ? s.bag_least : s.bag_there;
    return {
        {"id", support.id},
        {"verdict", name_of(s.verdict)},
        {"tip_angle_deg", s.tip_angle_deg},
        {"tip_direction_deg", s.tip_direction_deg},
        {"margin_m", s.margin_m},
        {"push_to_tip_n", s.push_to_tip_n},
        {"push_height_m", s.push_height_m},
        {"roll_snag_speed_m_s", s.snag_speed_m_s > 0.0 ? Json(s.snag_speed_m_s) : Json(nullptr)},
        {"mass_kg", s.mass_kg},
        {"com_m", vector_of(s.com_m)},
        {"load_kg", s.load_kg},
        {"load_limit_kg", s.load_limit_kg},
        {"foot_loads_n", s.foot_loads_n},
        {"bag_needed_kg",
         bag.place.empty() && s.verdict != Verdict::stable ? Json(nullptr) : Json(bag.mass_kg)},
        {"bag_place", bag.place},
        {"bag_leg", bag.leg},
        {"bag_at_m", bag.at_m},
        {"counterweight_needed_kg", s.counterweight_needed_kg},
        {"grip_torque_nm", s.grip_torque_nm},
        {"grip_limit_nm", s.grip_limit_nm},
        {"knuckle", name_of(s.knuckle)},
        {"reasons", s.reasons},
        {"assumes", "masses within the stated uncertainty, level firm floor, wheels at their "
                    "worst swing"}};
}

Json light_json(const LightReview& light) {
    return {{"id", light.id},
            {"position_m", vector_of(light.position_m)},
            {"distance_to_face_m", light.distance_to_face_m},
            {"face_azimuth_deg", light.face_angles.azimuth_deg},
            {"face_elevation_deg", light.face_angles.elevation_deg},
            {"exposure_lx_s", maybe(light.exposure_lx_s)},
            {"illuminance_lx", maybe(light.illuminance_lx)},
            {"f_number", maybe(light.f_number)},
            {"reading", light.reading},
            {"stops_from_key", maybe(light.stops_from_key)},
            {"share", light.share},
            {"apparent_size_deg", light.apparent_size_deg},
            {"penumbra_mm", light.penumbra_mm},
            {"pattern_if_alone", name_of(light.pattern_if_alone)}};
}

Json patch_json(const LitPatch& patch) {
    return {{"area_mm2", patch.area_mm2},
            {"width_mm", patch.width_mm},
            {"height_mm", patch.height_mm},
            {"ring_stops", patch.ring_stops}};
}

Json portrait_json(const PortraitReview& portrait) {
    Json eyes = Json::array();
    for (const EyeReview& eye : portrait.eyes)
        eyes.push_back({{"eye", eye.eye},
                        {"light_visible_percent", eye.light_visible_percent},
                        {"catchlights", nullptr}});
    Json nearest = nullptr;
    Json holds = nullptr;
    if (portrait.hold) {
        const PatternHold& hold = *portrait.hold;
        holds = Json::array({hold.turn_min_deg, hold.turn_max_deg});
        const bool above = hold.turn_max_deg < -hold.turn_min_deg;
        const Pattern other = above ? hold.above : hold.below;
        nearest = {{"pattern", name_of(other)},
                   {"turn_deg", above ? hold.turn_max_deg : hold.turn_min_deg},
                   {"note", portrait.note}};
    }
    return {{"key", portrait.key.empty() ? Json(nullptr) : Json(portrait.key)},
            {"pattern", name_of(portrait.pattern)},
            {"side", name_of(portrait.side)},
            {"face_azimuth_deg", portrait.face_angles.azimuth_deg},
            {"face_elevation_deg", portrait.face_angles.elevation_deg},
            {"note", portrait.note},
            {"lit_triangle",
             portrait.lit_triangle ? patch_json(*portrait.lit_triangle) : Json(nullptr)},
            {"nearest_other", nearest},
            {"holds_for_turn_deg", holds},
            {"eyes", eyes}};
}

Json exposure_json(const ExposureReview& exposure) {
    return {{"face_f_number", maybe(exposure.face_f_number)},
            {"camera_f_number", exposure.camera_f_number},
            {"stops_off", maybe(exposure.stops_off)},
            {"ratio_key_to_fill", maybe(exposure.ratio_key_to_fill)},
            {"ratio_lit_to_shadow", maybe(exposure.ratio_lit_to_shadow)},
            {"stops_lit_to_shadow", maybe(exposure.stops_lit_to_shadow)},
            {"clipped_percent", nullptr},
            {"assumes", "direct light only; bounce from walls and panels is not counted"}};
}

template <class Items, class Convert>
Json list(const Items& items, Convert convert) {
    Json array = Json::array();
    for (const auto& item : items) array.push_back(convert(item));
    return array;
}

} // namespace

std::string review_json(const Review& review) {
    Json json;
    json["set"] = review.set;
    json["version"] = 1;
    json["supports"] = list(review.supports, support_json);
    json["lights"] = list(review.lights, light_json);
    json["portrait"] = portrait_json(review.portrait);
    json["exposure"] = exposure_json(review.exposure);
    json["separation"] = list(review.separation, [](const SeparationReview& place) -> Json {
        return {{"place", place.place},
                {"inside_stops", place.inside_stops},
                {"outside_stops", place.outside_stops},
                {"difference_stops", place.difference_stops},
                {"difference_lstar", place.difference_lstar},
                {"verdict", place.verdict}};
    });
    json["background"] = {{"stops_from_key", maybe(review.background.stops_from_key)},
                          {"value_8bit", maybe(review.background.value_8bit)},
                          {"evenness_stops", maybe(review.background.evenness_stops)}};
    json["frame"] = list(review.frame, [](const FrameReview& seen) -> Json {
        return {{"id", seen.id}, {"part", seen.part}, {"in_frame_percent", seen.in_frame_percent}};
    });
    json["room"] = list(review.room, [](const RoomReview& fit) -> Json {
        return {{"id", fit.id},
                {"part", fit.part},
                {"clearance_m", fit.clearance_m},
                {"nearest", fit.nearest}};
    });
    json["spill"] = list(review.spill, [](const SpillReview& spill) -> Json {
        return {
            {"light", spill.light}, {"onto", spill.onto}, {"stops_from_key", spill.stops_from_key}};
    });
    json["findings"] = list(review.findings, [](const Finding& finding) -> Json {
        return {{"level", name_of(finding.level)},
                {"code", finding.code},
                {"about", finding.about},
                {"message", finding.message},
                {"remedy", finding.remedy}};
    });
    json["cautions"] = review.cautions;
    return json.dump(2);
}

} // namespace keystead
