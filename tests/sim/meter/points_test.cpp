// Meter points: what a hand meter reads where, which way it faces, with and without each light.
#include "tests/sim/review/bench_sets.h"

#include "sim/light/exposure.h"
#include "sim/light/falloff.h"
#include "sim/light/stops.h"
#include "support/helpers/checks.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

using namespace keystead;
using namespace bench;

namespace {

/// Two small hard lamps side by side, far from sitter and paper, on the camera's left.
Set lamp_and_points() {
    Set set = plain_set();
    set.lights = {light_at("key", "reflector-18", {-2.5, 2.0, 0.0}, {-2.5, 2.0, 2.0})};
    set.lights[0].head.calibration = CalibrationReading{};
    set.lights[0].head.calibration->f_number = 8.0;
    set.lights[0].head.calibration->distance_m = 2.0;
    set.lights[0].head.calibration->stops_below_full = 0.0;
    MeterPoint point;
    point.id = "mark";
    point.position_m = {-2.5, 2.0, 2.0};
    point.toward = "key";
    point.receptor = ReceptorKind::flat;
    set.meter_points = {point};
    return set;
}

PointReading at_mark(const Set& set) {
    return read_points(*studio_of(set)).at(1);
}

/// Turned about the vertical from the light, which shines along +Z: it faces −Z.
Set turned(Set set, ReceptorKind receptor, double deg) {
    set.meter_points[0].toward.clear();
    set.meter_points[0].azimuth_deg = 180.0 - deg;
    set.meter_points[0].receptor = receptor;
    return set;
}

} // namespace

TEST_CASE("A flat meter at the place of the calibration reading reads it again", "[meter]") {
    const PointReading mark = at_mark(lamp_and_points());
    REQUIRE(mark.lights.size() == 1);
    CHECK(*mark.lights[0].alone.f_number == Approx(8.0).epsilon(2e-3));
    CHECK(mark.lights[0].alone.reading == "f/8");
    // ISO 2720 incident form with C = 250: f/8 at ISO 100 is 160 lx·s (row 18).
    CHECK(*mark.lights[0].exposure_lx_s == Approx(160.0).epsilon(4e-3));
    CHECK(mark.together.reading == "f/8");
    CHECK_FALSE(mark.lights[0].without.f_number);
}

TEST_CASE("A dome answers with its own constant", "[meter]") {
    Set set = lamp_and_points();
    set.meter_points[0].receptor = ReceptorKind::dome;
    // Row 22: f/8 on a dome of C = 330 is 211.2 lx·s; here are 160.
    const double wanted = f_number_of_exposure(160.0, 100.0, 330.0);
    CHECK(wanted == Approx(8.0 * std::sqrt(160.0 / 211.2)).epsilon(1e-9));
    CHECK(*at_mark(set).together.f_number == Approx(wanted).epsilon(2e-3));
}

TEST_CASE("A dome turned 60° from the light reads 0.42 stop less, a flat receptor 1.0", "[meter]") {
    // Case of the dome at the camera: cardioid against cosine. Values from their definitions
    // (rows 35 and 36: 0.8536 and 0.75 of the light).
    const Set set = lamp_and_points();
    const auto stops = [&](ReceptorKind receptor, double deg) {
        return stops_between_f_numbers(*at_mark(turned(set, receptor, 0.0)).together.f_number,
                                       *at_mark(turned(set, receptor, deg)).together.f_number);
    };
    CHECK(stops(ReceptorKind::dome, 45.0) == Approx(-0.23).margin(0.01));
    CHECK(stops(ReceptorKind::dome, 60.0) == Approx(-0.42).margin(0.01));
    CHECK(stops(ReceptorKind::dome, 90.0) == Approx(-1.0).margin(0.01));
    CHECK(stops(ReceptorKind::flat, 60.0) == Approx(-1.0).margin(0.01));
    CHECK(at_mark(turned(set, ReceptorKind::flat, 120.0)).together.reading == "none");
}

TEST_CASE("f/8 and f/5.6 together read f/9.8, and each is what is left without the other",
          "[meter]") {
    Set set = lamp_and_points();
    set.lights.push_back(set.lights[0]);
    set.lights[1].id = "fill";
    set.lights[1].head.power_stops_below = 1.0;
    const PointReading mark = at_mark(set);
    // Row 26: two flashes f/8 and f/5.6 are f/9.798; the sum of squares.
    CHECK(*mark.together.f_number == Approx(checks::row(26).expected).epsilon(2e-3));
    CHECK(*mark.lights[0].without.f_number == Approx(exact_f_number(5.6)).epsilon(2e-3));
    CHECK(*mark.lights[1].without.f_number == Approx(8.0).epsilon(2e-3));
    CHECK(*stops_lost_without(mark, mark.lights[1]) == Approx(0.585).margin(1e-3));
    CHECK(mark.lights[0].share == Approx(2.0 / 3.0).epsilon(1e-9));
    set.lights[1].on = false;
    CHECK(at_mark(set).lights[1].alone.reading == "off");
}

TEST_CASE("Continuous light is given in lx and counts over the shutter time", "[meter]") {
    Set set = lamp_and_points();
    set.lights[0].head.kind = HeadKind::continuous;
    set.lights[0].head.calibration->shutter_s = 1.0 / 60.0;
    set.camera.shutter_s = 1.0 / 120.0;
    const PointReading mark = at_mark(set);
    CHECK_FALSE(mark.lights[0].exposure_lx_s);
    // E = C N² / (S t) = 250 · 64 / 100 · 60.
    CHECK(*mark.lights[0].illuminance_lx == Approx(9600.0).epsilon(4e-3));
    CHECK(*mark.together.f_number == Approx(exact_f_number(5.6)).epsilon(2e-3));
    CHECK(mark.flash_lx_s == 0.0);
    CHECK(mark.continuous_lx == Approx(9600.0).epsilon(4e-3));
}

TEST_CASE("Room light is part of what the meter reads", "[meter]") {
    Set set = lamp_and_points();
    set.lights[0].on = false;
    set.room.ambient_lx = 1000.0;
    // Row 9: 1000 lx, 1/125 s, ISO 100, C = 250.
    const PointReading mark = at_mark(set);
    CHECK_ROW(9, *mark.together.f_number);
    CHECK(mark.room_light_share == Approx(1.0));
    CHECK(*mark.colour_k == Approx(set.room.ambient_k));
}

TEST_CASE("What stands between shades the meter; the sitter does too", "[meter]") {
    Set set = plain_set();
    set.lights = {light_at("back", "reflector-18", {0.0, 1.6, -1.4}, {0, 1.6, 0.0})};
    MeterPoint point;
    point.id = "before";
    point.position_m = {0.0, 1.6, 0.35};
    point.toward = "back";
    set.meter_points = {point};
    CHECK(at_mark(set).together.reading == "none");
    set.meter_points[0].position_m.x = 0.9;
    CHECK(at_mark(set).together.f_number);
}

TEST_CASE("A point that faces a light which is gone reads nothing and is told of", "[meter]") {
    Set set = lamp_and_points();
    set.meter_points[0].toward = "rim";
    const Review review = quick_review(set);
    CHECK_FALSE(review.meter.at(1).facing);
    REQUIRE(finding(review, "meter-point-lost", "mark") != nullptr);
    CHECK(finding(review, "meter-point-lost")->message.find("rim") != std::string::npos);
    set.meter_points[0].toward = "key";
    CHECK(finding(quick_review(set), "meter-point-lost") == nullptr);
}

TEST_CASE("The report holds every point, in sentences and as JSON", "[meter]") {
    const Review review = quick_review(lamp_and_points());
    const auto json = nlohmann::json::parse(review_json(review));
    REQUIRE(json.at("meter").size() == 2);
    CHECK(json["meter"][0]["id"] == "face");
    CHECK(json["meter"][1]["reading"] == "f/8");
    CHECK(json["meter"][1]["lights"][0]["exposure_lx_s"].get<double>() ==
          Approx(160.0).epsilon(4e-3));
    CHECK(json["meter"][1]["lights"][0]["without"]["f_number"].is_null());
    CHECK(json["meter"][1]["facing_deg"][0].get<double>() == Approx(180.0).margin(0.1));
    const std::string text = review_text(review);
    CHECK(text.find("mark (flat, toward key): together f/8.") != std::string::npos);
    CHECK(text.find("160.0 lx·s") != std::string::npos);
}
