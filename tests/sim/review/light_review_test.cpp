// Readings, ratios and patterns through the whole review.
#include "tests/sim/review/bench_sets.h"

#include "sim/light/stops.h"

#include <catch2/catch.hpp>

using namespace keystead;
using namespace bench;

namespace {

/// Key camera right above, fill beside the camera, both at the face.
Set key_and_fill() {
    Set set = plain_set();
    set.lights.push_back(light_at("key", "octa-90", {0.9, 2.2, 1.0}, {0, 1.59, 0.08}));
    set.lights.push_back(light_at("fill", "umbrella-100", {-0.7, 1.7, 2.0}, {0, 1.59, 0.08}));
    return set;
}

} // namespace

TEST_CASE("Key f/11 alone and fill f/5.6 alone: 4:1 one way, 5:1 and 2.32 stops the other",
          "[review][light]") {
    // Case D1. Source: additive definition of the lighting ratio, closed form.
    Set set = key_and_fill();
    const Review first = quick_review(set);
    make_read(set.lights[0], light_of(first, "key"), exact_f_number(11));
    make_read(set.lights[1], light_of(first, "fill"), exact_f_number(5.6));
    const ExposureReview exposure = quick_review(set).exposure;
    REQUIRE(exposure.ratio_key_to_fill);
    CHECK(*exposure.ratio_key_to_fill == Approx(4.0).epsilon(1e-6));
    CHECK(*exposure.ratio_lit_to_shadow == Approx(5.0).epsilon(1e-6));
    CHECK(*exposure.stops_lit_to_shadow == Approx(2.3219).margin(1e-3));
}

TEST_CASE("For f/8 in all at 3:1 the key reads f/6.53 alone and the fill f/4.62",
          "[review][light]") {
    // Case D2. Source: K + F = 64, (K + F)/F = 3.
    Set set = key_and_fill();
    const Review first = quick_review(set);
    make_read(set.lights[0], light_of(first, "key"), 6.53);
    make_read(set.lights[1], light_of(first, "fill"), 4.62);
    const Review review = quick_review(set);
    CHECK(*review.exposure.ratio_lit_to_shadow == Approx(3.0).margin(0.01));
    CHECK(std::hypot(*review.exposure.key_f_number, *review.exposure.fill_f_number) ==
          Approx(8.0).margin(0.01));
}

TEST_CASE("Two fills add as the squares of their f-numbers", "[review][light]") {
    // Case D4. Source: exposure is proportional to N².
    Set set = key_and_fill();
    set.lights.push_back(light_at("fill-2", "umbrella-100", {0.2, 1.9, 2.3}, {0, 1.59, 0.08}));
    const Review first = quick_review(set);
    make_read(set.lights[0], light_of(first, "key"), exact_f_number(11));
    make_read(set.lights[1], light_of(first, "fill"), exact_f_number(5.6));
    make_read(set.lights[2], light_of(first, "fill-2"), exact_f_number(4));
    const Review review = quick_review(set);
    CHECK(light_of(review, "fill").reading == "f/5.6");
    CHECK(*review.exposure.fill_f_number == Approx(std::sqrt(32.0 + 16.0)).epsilon(1e-6));
    CHECK(light_of(review, "fill").stops_from_key == Approx(-2.0).margin(1e-6));
}

TEST_CASE("A light more leaves the readings of the others alone and adds its own share",
          "[review][light]") {
    // Case L9, common practice: light adds.
    Set set = key_and_fill();
    const Review two = quick_review(set);
    set.lights.push_back(light_at("kicker", "strip-30x90", {-1.3, 1.8, -0.9}, {0, 1.59, 0.08}));
    const Review three = quick_review(set);
    for (const char* id : {"key", "fill"})
        CHECK(*light_of(three, id).f_number == Approx(*light_of(two, id).f_number).epsilon(1e-9));
    const auto square = [](double x) { return x * x; };
    const double share = light_of(three, "kicker").share;
    CHECK(share > 0.0);
    CHECK(square(*two.exposure.face_f_number) ==
          Approx((1.0 - share) * square(*three.exposure.face_f_number)).epsilon(1e-6));
    set.lights[2].on = false;
    CHECK(*quick_review(set).exposure.face_f_number ==
          Approx(*two.exposure.face_f_number).epsilon(1e-9));
}

TEST_CASE("A stop more power is a stop more in every reading", "[review][light]") {
    Set set = key_and_fill();
    for (Light& light : set.lights) light.head.power_stops_below = 3.0;
    const Review before = quick_review(set);
    for (Light& light : set.lights) light.head.power_stops_below = 2.0;
    const Review after = quick_review(set);
    CHECK(*after.exposure.stops_off == Approx(*before.exposure.stops_off + 1.0).margin(1e-9));
    CHECK(*after.exposure.ratio_key_to_fill ==
          Approx(*before.exposure.ratio_key_to_fill).epsilon(1e-9));
    CHECK(*after.background.stops_from_key ==
          Approx(*before.background.stops_from_key).margin(1e-9));
    REQUIRE(after.separation.size() == before.separation.size());
    REQUIRE_FALSE(after.separation.empty());
    CHECK(after.separation[0].inside_stops ==
          Approx(before.separation[0].inside_stops + 1.0).margin(1e-9));
}

TEST_CASE("Nose 30° to camera right: a key at +70° is short, at −20° broad", "[review][light]") {
    // Case C1. Source: the definition of short and broad; the face sees +40° and −50°.
    Set set = plain_set();
    set.subject.head_turn_deg = 30.0;
    const Vec3 face(0.05, 1.6, 0.08);
    for (const double azimuth : {70.0, -20.0}) {
        const Vec3 centre = face + 1.5 * direction_from({azimuth, 30.0});
        set.lights = {light_at("key", "octa-90", centre, face)};
        const Review review = quick_review(set);
        CHECK(review.portrait.side == (azimuth > 0.0 ? Side::short_side : Side::broad_side));
        CHECK(review.portrait.face_angles.azimuth_deg == Approx(azimuth - 30.0).margin(1.0));
    }
}

TEST_CASE("Rolling only the base takes the short-side triangle to a butterfly", "[review][light]") {
    // Case L8, common practice.
    Set set = demo("harbour-choir-short.json");
    CHECK(quick_review(set).portrait.pattern == Pattern::rembrandt);
    const Vec3 face = studio_of(set)->subject->landmarks.face;
    Base& base = set.lights[0].support.base;
    const double away = glm::length(base.position_m - Vec2(face.x, face.z));
    // Round to where the nose points.
    const Vec3 ahead = direction_from({set.subject.head_turn_deg, 0.0});
    base.position_m = Vec2(face.x, face.z) + away * Vec2(ahead.x, ahead.z);
    CHECK(quick_review(set).portrait.pattern == Pattern::butterfly);
}

TEST_CASE("The key is the light that shapes the face, however strong a rim is", "[review][light]") {
    Set set = key_and_fill();
    set.lights.push_back(light_at("rim", "reflector-18", {0.8, 2.0, -1.0}, {0, 1.6, 0}));
    const Review review = quick_review(set);
    CHECK(*light_of(review, "rim").f_number > *light_of(review, "key").f_number);
    CHECK(review.portrait.key == "key");
}

TEST_CASE("Without light nothing is invented", "[review][light]") {
    Set set = key_and_fill();
    for (Light& light : set.lights) light.on = false;
    const Review review = quick_review(set);
    CHECK(review.portrait.key.empty());
    CHECK(review.portrait.pattern == Pattern::none);
    CHECK_FALSE(review.exposure.face_f_number);
    CHECK_FALSE(review.exposure.ratio_key_to_fill);
    CHECK_FALSE(review.background.stops_from_key);
    CHECK(light_of(review, "key").reading == "off");
    CHECK(finding(review, "no-key"));
}

TEST_CASE("Continuous light counts over the shutter time", "[review][light]") {
    Set set = plain_set();
    set.lights.push_back(light_at("lamp", "softbox-60x90", {0.9, 2.1, 1.1}, {0, 1.59, 0.08}));
    set.lights[0].head = find_entry(catalogue().heads, "led-300")->value;
    set.camera.shutter_s = 1.0 / 60.0;
    const Review slow = quick_review(set);
    set.camera.shutter_s = 1.0 / 120.0;
    const Review fast = quick_review(set);
    REQUIRE(slow.lights[0].illuminance_lx);
    CHECK_FALSE(slow.lights[0].exposure_lx_s);
    CHECK(*slow.lights[0].illuminance_lx == Approx(*fast.lights[0].illuminance_lx).epsilon(1e-9));
    CHECK(*slow.exposure.stops_off == Approx(*fast.exposure.stops_off + 1.0).margin(1e-9));
}

TEST_CASE("A part of the set that nothing uses yet is named, and the finding goes with it",
          "[review]") {
    Set set = key_and_fill();
    const auto named = [&set] {
        for (const Finding& finding : quick_review(set).findings)
            if (finding.code == "not-used-yet") return finding.message;
        return std::string();
    };
    CHECK(named().empty());
    set.subject.hat = Hat{};
    CHECK(named().empty());
    set.subject.glasses = Glasses{};
    set.subject.proportions.preset = "small-female";
    set.subject.proportions.lip_length_mm = 46.0;
    CHECK(named().empty());
    set.lights[0].head.kind = HeadKind::continuous;
    set.lights[0].head.guide_number_m = 40.0;
    CHECK(named().find("guide number") != std::string::npos);
    set.lights[0].head.guide_number_m.reset();
    CHECK(named().empty());
}
