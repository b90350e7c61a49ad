// Cases from practice that cut across the review: groups, feathering, turned heads, edge lights.
#include "tests/sim/review/bench_sets.h"

#include "sim/light/meter.h"
#include "sim/review/sight.h"
#include "sim/review/tone.h"
#include "support/helpers/checks.h"

#include <catch2/catch.hpp>

using namespace keystead;
using namespace bench;

namespace {

/// A cosine lamp of 2 cm at the origin that looks along an azimuth.
Emitter small_lamp(double azimuth_deg) {
    Emitter lamp;
    lamp.shape = ModifierShape::disc;
    lamp.axes = upright_frame(direction_from({azimuth_deg, 0.0}));
    lamp.width_m = lamp.height_m = 0.02;
    lamp.area_m2 = pi * 1e-4;
    lamp.exitance = 1.0;
    return lamp;
}

double reading(const Emitter& lamp, double azimuth_deg, double distance_m) {
    const Vec3 way = direction_from({azimuth_deg, 0.0});
    return exposure_at(lamp, {distance_m * way, -way}, nullptr, 34);
}

double spot(const Review& review, const std::string& place) {
    for (const SpotReading& s : review.spots)
        if (s.place == place && s.stops_from_camera) return *s.stops_from_camera;
    return -99.0;
}

double inside(const Review& review, const std::string& place) {
    for (const SeparationReview& s : review.separation)
        if (s.place == place) return s.inside_stops;
    return -99.0;
}

/// Stops from the key at which a surface comes out at that code.
double stops_for_code(double reflectance, double code) {
    double low = -14.0, high = 4.0;
    while (high - low > 1e-4) {
        const double middle = 0.5 * (low + high);
        (code_8bit(reflectance * std::exp2(middle)) < code ? low : high) = middle;
    }
    return high;
}

/// A head turned 30 degrees and a gridded key on its far side.
Set short_side_key() {
    Set set = plain_set();
    set.background.kind = BackgroundKind::none;
    set.subject.head_turn_deg = 30.0;
    const Vec3 face = studio_of(set)->subject->landmarks.face;
    set.lights.push_back(
        light_at("key", "octa-90-grid", face + 1.4 * direction_from({78.0, 32.0}), face));
    const Review first = quick_review(set);
    make_read(set.lights[0], light_of(first, "key"), exact_f_number(set.camera.f_number));
    return set;
}

} // namespace

TEST_CASE("The back row falls off with the light's distance from the front row",
          "[review][cases]") {
    // Case G1: rows 1.2 m apart.
    const auto spread = [](double distance_m) {
        const Emitter lamp = small_lamp(0.0);
        return std::log2(reading(lamp, 0.0, distance_m) / reading(lamp, 0.0, distance_m + 1.2));
    };
    CHECK_ROW(343, spread(1.5));
    CHECK_ROW(344, spread(2.0));
    CHECK_ROW(345, spread(3.0));
    CHECK_ROW(346, spread(4.0));
    CHECK_ROW(347, spread(6.0));
}

TEST_CASE("Feathered past the farther of two sitters a flat face lights both alike",
          "[review][cases]") {
    // Case G5: A at 1.5 m, B at 2.5 m, 40 degrees apart; aimed 72.3 degrees from A.
    const Emitter lamp = small_lamp(72.3);
    CHECK(std::log2(reading(lamp, 0.0, 1.5) / reading(lamp, 40.0, 2.5)) ==
          Approx(0.0).margin(0.02));
    CHECK_ROW(348, std::log2(reading(lamp, 0.0, 1.5) / reading(small_lamp(0.0), 0.0, 1.5)));
    CHECK_ROW(349, std::log2(reading(lamp, 40.0, 2.5) / reading(small_lamp(40.0), 40.0, 2.5)));
}

TEST_CASE("The top of an 85 mm frame 3.6 m away", "[review][cases]") {
    // Case E4.
    Camera camera;
    camera.position_m = {0.0, 1.6, 3.0};
    camera.aim_m = {0.0, 1.6, 0.0};
    camera.focal_length_mm = 85.0;
    camera.orientation = Orientation::upright;
    const Vec3 way = ray_through(camera_frame(camera), 0.0, 1.0);
    CHECK_ROW(350, 1.6 + 3.6 * way.y / -way.z);
}

TEST_CASE("A key that goes round with the nose keeps its pattern and its side of the nose",
          "[review][cases]") {
    // Case I1: the pattern belongs to the face, not to the room.
    const auto turned = [](double turn_deg) {
        Set set = plain_set();
        set.background.kind = BackgroundKind::none;
        set.subject.head_turn_deg = turn_deg;
        const Vec3 face = studio_of(set)->subject->landmarks.face;
        set.lights.push_back(
            light_at("key", "octa-90", face + 1.3 * direction_from({turn_deg + 42.0, 32.0}), face));
        return quick_review(set).portrait;
    };
    const PortraitReview ahead = turned(0.0), round = turned(-24.0);
    CHECK(round.pattern == ahead.pattern);
    CHECK(round.face_angles.azimuth_deg == Approx(ahead.face_angles.azimuth_deg).margin(0.5));
    CHECK(round.face_angles.elevation_deg == Approx(ahead.face_angles.elevation_deg).margin(0.5));
    // The side belongs to the camera: it sees more of the cheek that the key is on now.
    CHECK(ahead.side == Side::front);
    CHECK(round.side == Side::broad_side);
}

TEST_CASE(
    "Short light leaves the near cheek dark, and a wide source at the lens lifts it as planned",
    "[review][cases]") {
    // Case L5, common practice.
    Set set = short_side_key();
    const Review alone = quick_review(set);
    CHECK(alone.portrait.side == Side::short_side);
    CHECK(spot(alone, "face, shadow side") < spot(alone, "face, lit side") - 0.8);
    const Vec3 face = studio_of(set)->subject->landmarks.face;
    set.lights.push_back(
        light_at("fill", "octa-150", face + 2.6 * direction_from({-12.0, 14.0}), face));
    const Review first = quick_review(set);
    // Two stops under the key: 5:1 between the sides.
    make_read(set.lights[1], light_of(first, "fill"), exact_f_number(set.camera.f_number) / 2.0);
    const Review lifted = quick_review(set);
    CHECK(lifted.portrait.pattern == alone.portrait.pattern);
    CHECK(lifted.portrait.key == "key");
    CHECK(*lifted.exposure.ratio_lit_to_shadow == Approx(5.0).margin(0.1));
    CHECK(spot(lifted, "face, shadow side") > spot(alone, "face, shadow side") + 0.5);
    CHECK(*light_of(lifted, "key").f_number ==
          Approx(*light_of(alone, "key").f_number).epsilon(1e-9));
}

TEST_CASE("Edge lights at head height leave the crown dark, raised ones light it too",
          "[review][cases]") {
    // Case L6, common practice.
    const auto edged = [](double height_m) {
        Set set = plain_set();
        set.background.distance_m = 3.0; // the edge lights alone: a key reaches the crown too
        for (const double side : {-1.0, 1.0})
            set.lights.push_back(light_at(side < 0.0 ? "left" : "right", "strip-30x90-grid",
                                          {side * 1.2, height_m, -0.8}, {0, 1.62, 0.0}));
        return quick_review(set);
    };
    const Review low = edged(1.6), high = edged(2.6);
    INFO("crown " << inside(low, "head_top") << " and " << inside(high, "head_top"));
    CHECK(inside(high, "head_top") > inside(low, "head_top") + 0.7);
    for (const char* place : {"hair_left", "hair_right"}) {
        INFO(place << " " << inside(low, place) << " and " << inside(high, place));
        // At head height strips also glint in the hair from edge on, by up to three stops.
        CHECK(inside(high, place) > inside(low, place) - 4.0);
        CHECK(inside(high, place) > -99.0);
    }
}

TEST_CASE("A key above and a fill below the chin are told as a clamshell", "[review][cases]") {
    Set set = plain_set();
    set.background.kind = BackgroundKind::none;
    const Vec3 face = studio_of(set)->subject->landmarks.face;
    set.lights.push_back(
        light_at("key", "octa-90", face + 1.3 * direction_from({6.0, 40.0}), face));
    set.lights.push_back(
        light_at("fill", "softbox-60x90", face + 1.0 * direction_from({-4.0, -38.0}), face));
    const Review both = quick_review(set);
    CHECK(both.portrait.key == "key");
    CHECK(both.portrait.pair == "clamshell");
    CHECK(both.portrait.pair_light == "fill");
    CHECK(review_text(both).find("With fill: clamshell.") != std::string::npos);
    set.lights[1].on = false;
    CHECK(quick_review(set).portrait.pair.empty());
}

TEST_CASE("What a background comes out as, and what it needs to be white or black",
          "[review][cases]") {
    // Cases F1, F2 and F4, for an exposure by the key.
    CHECK_ROW(360, code_8bit(0.90 * std::exp2(-2.83)));
    CHECK_ROW(361, code_8bit(0.90 * std::exp2(-1.75)));
    CHECK_ROW(362, code_8bit(0.90 * std::exp2(-4.23)));
    CHECK_ROW(363, stops_for_code(0.90, 254.99));
    CHECK_ROW(364, stops_for_code(0.80, 254.99));
    CHECK_ROW(365, stops_for_code(0.90, 8.0));
    CHECK_ROW(366, stops_for_code(0.18, 8.0));
    CHECK_ROW(367, stops_for_code(0.04, 8.0));
}
