// The printed forms and the memory.
#include "tests/sim/review/bench_sets.h"

#include "sim/review/say.h"
#include "sim/set/json_text.h"

#include "sim/portrait/face_chart.h"

#include <catch2/catch.hpp>
#include <functional>

using namespace keystead;
using namespace bench;

namespace {

std::vector<std::string> keys_of(const Json& object) {
    std::vector<std::string> keys;
    for (const auto& item : object.items()) keys.push_back(item.key());
    return keys;
}

bool has_all(const Json& object, const std::vector<std::string>& wanted) {
    return std::all_of(wanted.begin(), wanted.end(),
                       [&](const std::string& key) { return object.contains(key); });
}

} // namespace

TEST_CASE("The JSON report has its promised keys, and null for what is not known",
          "[review][report]") {
    const Json json = parse_json(review_json(quick_review(demo("lantern-maker.json")))).value();
    const std::vector<std::string> sections{"set",      "version",  "supports",   "lights",
                                            "portrait", "exposure", "separation", "background",
                                            "frame",    "room",     "spill",      "findings"};
    const std::vector<std::string> printed = keys_of(json);
    REQUIRE(printed.size() >= sections.size());
    CHECK(std::equal(sections.begin(), sections.end(), printed.begin()));
    CHECK(has_all(json["supports"][0],
                  {"id", "verdict", "tip_angle_deg", "tip_direction_deg", "margin_m",
                   "push_to_tip_n", "push_height_m", "roll_snag_speed_m_s", "mass_kg", "com_m",
                   "load_kg", "load_limit_kg", "foot_loads_n", "bag_needed_kg", "bag_place",
                   "counterweight_needed_kg", "grip_torque_nm", "grip_limit_nm", "knuckle"}));
    CHECK(has_all(json["lights"][0],
                  {"id", "position_m", "distance_to_face_m", "face_azimuth_deg",
                   "face_elevation_deg", "exposure_lx_s", "illuminance_lx", "f_number", "reading",
                   "stops_from_key", "apparent_size_deg", "penumbra_mm", "pattern_if_alone"}));
    CHECK(has_all(json["portrait"],
                  {"key", "pattern", "side", "face_azimuth_deg", "face_elevation_deg",
                   "lit_triangle", "nearest_other", "holds_for_turn_deg", "holds_for_nod_deg",
                   "holds_for_key_azimuth_deg", "holds_for_key_height_deg",
                   "holds_for_key_distance_m", "names_beyond", "eyes"}));
    CHECK(has_all(json["exposure"],
                  {"face_f_number", "camera_f_number", "stops_off", "ratio_key_to_fill",
                   "ratio_lit_to_shadow", "stops_lit_to_shadow", "clipped_percent"}));
    CHECK(json["exposure"]["clipped_percent"].is_number());
    CHECK(json["portrait"]["holds_for_turn_deg"].is_null());     // the slow pass was left out
    CHECK(json["supports"][1]["roll_snag_speed_m_s"].is_null()); // no wheels
    CHECK(json["supports"][1]["grip_torque_nm"].is_null());      // no arm
    CHECK(json["lights"][0]["illuminance_lx"].is_null());        // flash
}

TEST_CASE("The margins say how far the head may turn", "[review][report]") {
    const auto studio = studio_of(demo("harbour-choir-short.json"));
    ReviewMemory memory;
    const Review review = review_set(*studio, {}, &memory);
    REQUIRE(review.portrait.hold);
    CHECK(review.portrait.hold->turn_min_deg <= 0.0);
    CHECK(review.portrait.hold->turn_max_deg >= 0.0);
    REQUIRE(review.portrait.holds);
    CHECK(review.portrait.holds->nod_deg.least <= 0.0);
    CHECK(review.portrait.holds->key_height_deg.most >= 0.0);
    const std::string text = review_text(review);
    CHECK(text.find("Holds for head turns from") != std::string::npos);
    CHECK(text.find("Holds for nods from") != std::string::npos);
    CHECK(text.find("Holds for the key round the face from") != std::string::npos);
    // Remembered margins are shown by a quick review too.
    CHECK(review_set(*studio, {.margins = false}, &memory).portrait.hold);
}

TEST_CASE("The text prints both ratios, the assumptions and the cautions, and never says safe",
          "[review][report]") {
    const std::string text = review_text(quick_review(demo("harbour-choir-short.json")));
    CHECK(text.find("(K:F)") != std::string::npos);
    CHECK(text.find("((K+F):F)") != std::string::npos);
    CHECK(text.find("Assumes a level firm floor") != std::string::npos);
    CHECK(text.find("certifies nothing") != std::string::npos);
    std::string lower = text;
    std::transform(lower.begin(), lower.end(), lower.begin(),
                   [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    CHECK(lower.find("safe") == std::string::npos);
}

TEST_CASE("The remedy names masses and places", "[review][report]") {
    const Review review = quick_review(demo("overreach.json"));
    const Finding* fall = finding(review, "support-unstable");
    REQUIRE(fall);
    CHECK(fall->remedy.find("kg of counterweight") != std::string::npos);
    CHECK(fall->remedy.find("behind the pivot") != std::string::npos);
    const std::string text = review_text(review);
    CHECK(text.find("falls") != std::string::npos);
    CHECK(text.find("DANGER") != std::string::npos);
}

TEST_CASE("A bag resting on the floor is called out", "[review][report]") {
    Set set = demo("lantern-maker.json");
    set.lights[2].support.bags[0].hanging = false;
    const Review review = quick_review(set);
    REQUIRE(finding(review, "bag-resting", "kicker"));
    CHECK(support_of(review, "kicker").stability.verdict != Verdict::stable);
}

TEST_CASE("What hangs over the sitter is named with its mass", "[review][report]") {
    Set set = plain_set();
    set.room.ceiling_m = 4.0;
    Light over = light_at("top", "octa-90", {0.0, 2.3, 0.1}, {0, 1.59, 0.08});
    set.lights = {over};
    const Review review = quick_review(set);
    const Finding* hangs = finding(review, "load-over-person", "top");
    REQUIRE(hangs);
    CHECK(hangs->message.find("kg") != std::string::npos);
}

TEST_CASE("A set reviewed twice with a memory computes nothing the second time",
          "[review][memory]") {
    const auto studio = studio_of(demo("harbour-choir-short.json"));
    ReviewMemory memory;
    const Review first = review_set(*studio, {.margins = false}, &memory);
    CHECK(memory.computed > 0);
    const Review second = review_set(*studio, {.margins = false}, &memory);
    CHECK(memory.computed == 0);
    CHECK(review_json(second) == review_json(first));
}

TEST_CASE("An edit recomputes what it touches, and the result is that of a fresh review",
          "[review][memory]") {
    Set set = demo("harbour-choir-short.json");
    ReviewMemory memory;
    quick_review(set, &memory);
    const auto check_edit = [&](int most) {
        const Review remembered = quick_review(set, &memory);
        CHECK(memory.computed <= most);
        ReviewMemory fresh;
        CHECK(review_json(remembered) == review_json(quick_review(set, &fresh)));
    };
    set.lights[1].head.power_stops_below += 0.5;
    check_edit(0); // power is a factor
    set.camera.f_number = 5.6;
    check_edit(0);
    set.lights[0].support.bags[0].mass_kg = 6.8;
    check_edit(8); // one stand, its own shadows, and all that a moved bag may shade or show
    set.meter.dome_c_lx_s = 340.0;
    check_edit(0);
}

TEST_CASE("Numbers in sentences have true minus signs, units and whole words", "[review][report]") {
    CHECK(say::number(-6.2, 0) == "−6");
    CHECK(say::signed_number(11.0, 0) == "+11");
    CHECK(say::number(-0.001, 1) == "0.0");
    CHECK(say::with_unit(0.12, 2, "m") == "0.12 m");
    CHECK(say::with_unit(12, 0, "°") == "12°");
    CHECK(say::stops(0.3) == "0.3 stop");
    CHECK(say::stops(1.0) == "1 stop");
    CHECK(say::stops(1.2) == "1.2 stops");
    CHECK(say::at_least(11.91, "kg") == "12.0 kg");
    CHECK(say::at_least(11.9, "kg") == "11.9 kg");
}

TEST_CASE("Power, gel, mute and exposure edits of a reviewed set cast no rays", "[review]") {
    Set set = demo("lantern-maker.json");
    ReviewMemory memory;
    const auto first = make_studio(set);
    review_set(*first, {.margins = false}, &memory);
    const std::map<std::string, std::function<void(Set&)>> edits{
        {"power", [](Set& edited) { edited.lights[0].head.power_stops_below += 1.0; }},
        {"mute", [](Set& edited) { edited.lights[1].on = false; }},
        {"gel",
         [](Set& edited) {
             edited.lights[2].modifier.gel = Gel{-120.0, 0.4, {}, {}};
         }},
        {"exposure", [](Set& edited) {
             edited.camera.f_number = 4.0;
             edited.camera.iso = 400.0;
             edited.camera.shutter_s = 1.0 / 60.0;
         }}};
    for (const auto& [name, edit] : edits) {
        INFO(name);
        Set edited = set;
        edit(edited);
        const std::uint64_t cast = first->rays->rays_cast();
        const std::uint64_t on_chart = memory.chart->rays.rays_cast();
        const auto studio = make_studio(edited, first);
        const Review kept = review_set(*studio, {.margins = false}, &memory);
        CHECK(first->rays->rays_cast() == cast);
        CHECK(memory.chart->rays.rays_cast() == on_chart);
        // And what is kept is what a review from nothing finds.
        CHECK(review_json(kept) == review_json(review_set(*studio, {.margins = false})));
    }
}

TEST_CASE("A review that remembers says what a review from nothing says", "[review]") {
    Set set = demo("lantern-maker.json");
    ReviewMemory memory;
    std::shared_ptr<const Studio> studio;
    const auto compare = [&] {
        studio = make_studio(set, studio);
        const std::string kept = review_json(review_set(*studio, {.margins = false}, &memory));
        CHECK(kept == review_json(review_set(*studio, {.margins = false})));
    };
    compare();
    set.lights[0].support.base.position_m.x += 0.2;
    compare();
    set.lights[3].support.base.position_m.y -= 0.6;
    compare();
    set.panels[0].position_m.x -= 0.2;
    compare();
    set.subject.head_turn_deg += 7.0;
    compare();
    set.camera.position_m.x += 0.1;
    compare();
}
