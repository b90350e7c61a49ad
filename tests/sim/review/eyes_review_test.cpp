// What pupils see, what the cornea mirrors, and the findings about both.
#include "tests/sim/review/bench_sets.h"

#include "sim/review/bench.h"
#include "sim/review/column_moves.h"
#include "sim/review/eye_view.h"
#include "sim/review/eye_ways.h"
#include "support/helpers/checks.h"

#include <catch2/catch.hpp>

using namespace keystead;
using namespace bench;

namespace {

/// A studio with nothing but two eyes at 1.60 m that look at +Z, and one shading plate above them
/// whose front edge stands so far ahead of the pupils and so far above.
Studio under_plate(const char* part, Region region, double ahead_m, double above_m) {
    auto posed = std::make_shared<PosedSubject>();
    posed->landmarks.pupil_left = {0.03, 1.60, 0.10};
    posed->landmarks.pupil_right = {-0.03, 1.60, 0.10};
    posed->landmarks.eye_left = {0.03, 1.60, 0.088};
    posed->landmarks.eye_right = {-0.03, 1.60, 0.088};
    posed->landmarks.face = {0.0, 1.60, 0.10};
    auto plate = std::make_shared<Mesh>();
    const auto y = static_cast<float>(1.60 + above_m), z = static_cast<float>(0.10 + ahead_m);
    plate->positions_m = {{-2.0F, y, 0.05F}, {2.0F, y, 0.05F}, {2.0F, y, z}, {-2.0F, y, z}};
    plate->triangles = {{0, 1, 2}, {0, 2, 3}};
    plate->regions.assign(4, static_cast<std::uint8_t>(region));
    Studio studio;
    studio.subject = posed;
    ScenePart piece;
    piece.owner = "subject";
    piece.part = part;
    piece.mesh = plate;
    piece.mask = ray_mask::subject;
    studio.scene.parts = {piece};
    studio.rays = std::make_shared<RayScene>();
    studio.rays->add(plate, ray_mask::subject);
    studio.rays->commit();
    return studio;
}

/// A disc of 2 cm that looks at the eyes.
Emitter lamp_at(double azimuth_deg, double elevation_deg, double distance_m) {
    const Vec3 way = direction_from({azimuth_deg, elevation_deg});
    Emitter lamp;
    lamp.light = "key";
    lamp.centre_m = Vec3(0.0, 1.60, 0.10) + distance_m * way;
    lamp.axes = upright_frame(-way);
    lamp.width_m = lamp.height_m = 0.02;
    lamp.area_m2 = pi * 1e-4;
    lamp.exitance = 1.0;
    return lamp;
}

double seen(const Studio& studio, const Emitter& lamp) {
    return eye_light(studio, eyes_of(studio.subject->landmarks)[0], lamp)->seen_percent;
}

/// The highest light straight ahead that the eye sees half of.
double limit_deg(const Studio& studio) {
    double low = 0.0, high = 80.0;
    while (high - low > 0.05) {
        const double middle = 0.5 * (low + high);
        (seen(studio, lamp_at(0.0, middle, 30.0)) > 50.0 ? low : high) = middle;
    }
    return low;
}

Bench bench_of(const Studio& studio) {
    static const Sight nothing;
    return Bench{studio, studio.subject->landmarks, nothing};
}

Set lit_set(double azimuth_deg, double elevation_deg) {
    Set set = plain_set();
    set.background.kind = BackgroundKind::none;
    const Vec3 eye(0, 1.59, 0.09);
    set.camera.position_m = {0.0, 1.59, 2.4};
    set.camera.aim_m = {0.0, 1.55, 0.0};
    set.subject.gaze.kind = GazeKind::camera;
    set.lights.push_back(
        light_at("key", "octa-90", eye + 1.5 * direction_from({azimuth_deg, elevation_deg}), eye));
    return set;
}

} // namespace

TEST_CASE("A brow 15 mm proud and 14 above the pupil shades it over 43 degrees", "[review][eyes]") {
    // Case C5, atan(h/b) by hand; a brow 20 proud and 12 above: 31 degrees.
    const Studio usual = under_plate("skin", Region::brow, 0.015, 0.014);
    CHECK_ROW(351, limit_deg(usual));
    const auto hidden = eye_light(usual, eyes_of(usual.subject->landmarks)[0], lamp_at(0, 45, 30));
    REQUIRE(hidden->hiders.size() == 1);
    CHECK(hidden->hiders[0].what == "brow");
    CHECK(hidden->hiders[0].percent == Approx(100.0));
    // From the side: tan e' = tan 35 / cos 45, 44.7 degrees, is too steep though 35 is not.
    CHECK(seen(usual, lamp_at(45, 35, 30.0)) == 0.0);
    CHECK(seen(usual, lamp_at(0, 35, 30.0)) == Approx(100.0));
    const Studio deep = under_plate("skin", Region::brow, 0.020, 0.012);
    CHECK_ROW(352, limit_deg(deep));
}

TEST_CASE("A key that the brow hides is told how far to come down", "[review][eyes]") {
    // Case C5: 1.5 m away at 45 degrees, 2.66 m up. Straight down its way along the floor stays, so
    // that it ends 1.06 tan 31 over the eyes, by hand.
    Studio deep = under_plate("skin", Region::brow, 0.020, 0.012);
    const Vec3 eye(0.0, 1.60, 0.10);
    const auto put = [&](double elevation_deg) {
        const Light key =
            light_at("key", "reflector-18", eye + 1.5 * direction_from({0.0, elevation_deg}), eye);
        deep.set.lights = {key};
        deep.emitters = {with_column_raised(deep, 0, 0.0)};
    };
    put(45);
    REQUIRE(deep.emitters[0].centre_m.y == Approx(2.66).margin(0.01));
    const auto drop = drop_for_eyes_m(bench_of(deep), 0);
    REQUIRE(drop);
    const Vec3 way = with_column_raised(deep, 0, -*drop).centre_m - eye;
    CHECK(angles_of(way).elevation_deg == Approx(31.0).margin(1.0));
    // And no way down helps a lamp that stands at eye height already.
    put(-5);
    CHECK_FALSE(drop_for_eyes_m(bench_of(deep), 0));
}

TEST_CASE("Under a brim 90 mm out and 45 up a 40 degree key needs the chin 13.4 degrees up",
          "[review][eyes]") {
    // Case C7, atan(45/90) = 26.6 degrees, by hand.
    Studio hat = under_plate("hat", Region::hat, 0.090, 0.045);
    CHECK_ROW(353, limit_deg(hat));
    hat.emitters = {lamp_at(0, 40, 30.0)};
    CHECK(eye_light(hat, eyes_of(hat.subject->landmarks)[1], hat.emitters[0])->hiders[0].what ==
          "hat");
    const auto nod = nod_for_eyes_deg(bench_of(hat), 0);
    REQUIRE(nod);
    CHECK_ROW(354, *nod);
    // A soft light at the edge is seen in part.
    Emitter soft = lamp_at(0, 26.6, 1.3);
    soft.width_m = soft.height_m = 0.9;
    CHECK(seen(hat, soft) > 20.0);
    CHECK(seen(hat, soft) < 80.0);
}

TEST_CASE("The report says where in each eye the key is mirrored", "[review][eyes]") {
    // Case C10: mirror at half the angle, 45 degrees round and 35 up: half past one. 0.9 m at 1.5 m
    // shows 2.3 mm wide, narrower here as it lies off the cornea's middle.
    const Review review = quick_review(lit_set(45.0, 35.0));
    REQUIRE(review.portrait.eyes.size() == 2);
    const Json json = parse_json(review_json(review)).value();
    int shown = 0;
    for (const EyeReview& eye : review.portrait.eyes) {
        INFO(eye.eye);
        CHECK(eye.in_view);
        if (eye.catchlights.empty()) continue;
        ++shown;
        REQUIRE(eye.catchlights.size() == 1);
        const CatchlightReview& c = eye.catchlights[0];
        CHECK(c.source == "key");
        CHECK(c.shape == "eight-sided");
        CHECK(c.clock == Approx(1.5).margin(0.4));
        CHECK(c.from_pupil_mm.x == Approx(2.5).margin(0.5));
        CHECK(c.size_mm.x > 1.2);
        CHECK(c.size_mm.x < 2.5);
    }
    CHECK(shown > 0);
    CHECK(json["portrait"]["eyes"][0]["catchlights"].is_array());
    CHECK(json["portrait"]["eyes"][0]["lights"][0].contains("hidden_by"));
    const std::string text = review_text(review);
    CHECK(text.find("key at half past one") != std::string::npos);
}

TEST_CASE("A second light in the eyes is a note, and gone with its power", "[review][eyes]") {
    Set set = lit_set(30.0, 20.0);
    CHECK_FALSE(finding(quick_review(set), "catchlights-many"));
    const Vec3 eye(0, 1.59, 0.09);
    set.lights.push_back(
        light_at("fill", "softbox-90x120", eye + 1.5 * direction_from({-25, -15}), eye));
    const Review two = quick_review(set);
    const Finding* many = finding(two, "catchlights-many");
    REQUIRE(many);
    CHECK(many->message.find("fill at") != std::string::npos);
    CHECK(many->message.find("key at") != std::string::npos);
    set.lights[1].head.range_stops = 12.0;
    set.lights[1].head.power_stops_below += 7.0;
    CHECK_FALSE(finding(quick_review(set), "catchlights-many"));
}

TEST_CASE("A lit white card under the chin is mirrored too", "[review][eyes]") {
    Set set = lit_set(25.0, 35.0);
    Panel card;
    card.id = "card";
    card.kind = PanelKind::reflector;
    card.width_m = 0.6;
    card.height_m = 0.5;
    card.position_m = {0.0, 1.12, 0.45};
    card.turn_deg = 180.0;
    card.tilt_deg = 60.0;
    card.reflectance = {Vec3(0.85)};
    set.panels = {card};
    const Review review = quick_review(set);
    bool mirrored = false;
    std::string text = review_text(review);
    text = text.substr(text.find("Panels"), text.find("Exposure") - text.find("Panels"));
    INFO(text);
    for (const EyeReview& each : review.portrait.eyes)
        for (const CatchlightReview& c : each.catchlights)
            mirrored |= c.source == "card" && c.panel;
    CHECK(mirrored);
}

TEST_CASE("A hat that shades the eyes is named, and the first remedy lights them",
          "[review][eyes]") {
    Set set = lit_set(0.0, 42.0);
    set.subject.hat = Hat{};
    set.subject.hat->brim_mm = 90.0;
    const Review dark = quick_review(set);
    const Finding* found = finding(dark, "eye-dark");
    REQUIRE(found);
    CHECK(found->message.find("the hat hides") != std::string::npos);
    REQUIRE_FALSE(found->mend.edits.empty());
    const Review after = quick_review(mended(set, *found));
    CHECK_FALSE(finding(after, "eye-dark"));
    for (const EyeReview& eye : after.portrait.eyes) CHECK(eye.light_visible_percent > 40.0);
}
