// The spot meter at the camera, and the lighting ratio both ways.
#include "tests/sim/review/bench_sets.h"

#include "sim/light/exposure.h"
#include "sim/light/stops.h"
#include "support/helpers/checks.h"

#include <catch2/catch.hpp>

using namespace keystead;
using namespace bench;

namespace {

const SpotReading& spot(const Review& review, const std::string& place) {
    for (const SpotReading& s : review.spots)
        if (s.place == place) return s;
    throw std::runtime_error("no spot on " + place);
}

/// One small lamp far in front, so that it falls evenly on the paper behind the head.
Set lit_paper(double reflectance) {
    Set set = plain_set();
    set.background.reflectance = Reflectance{Vec3(reflectance)};
    set.lights = {light_at("key", "reflector-18", {0.0, 2.4, 5.4}, {0, 1.6, -2.0})};
    MeterPoint point;
    point.id = "paper";
    point.position_m = {0.25, 1.6, -1.98};
    point.toward.clear();
    point.receptor = ReceptorKind::flat;
    set.meter_points = {point};
    return set;
}

} // namespace

TEST_CASE("A spot reading of an 18 % card is 0.2 stop above a flat incident one", "[meter]") {
    // Row 13: pi K / C = 0.15708 with K = 12.5 and C = 250 is the reflectance where both agree.
    const Review review = quick_review(lit_paper(0.18));
    const SpotReading& paper = spot(review, "background");
    REQUIRE(paper.dial.f_number);
    // Paper shines a little and the card of the formula does not: what two papers send differs by
    // what they scatter alone.
    const double darker = spot(quick_review(lit_paper(0.09)), "background").luminance_cd_s_m2;
    const double scattered = (paper.luminance_cd_s_m2 - darker) * 0.18 / (0.18 - 0.09);
    CHECK(darker > 0.0);
    CHECK(scattered < paper.luminance_cd_s_m2);
    const Set set = lit_paper(0.18);
    const double card =
        f_number_of_luminance(scattered, 1.0, set.camera.iso, set.meter.reflected_k);
    const double stops = stops_between_f_numbers(*review.meter.at(1).together.f_number, card);
    CHECK(stops == Approx(std::log2(0.18 / checks::row(13).expected)).margin(0.06));
}

TEST_CASE("A larger K is a smaller f-number for the same luminance", "[meter]") {
    Set set = lit_paper(0.18);
    const double usual = *spot(quick_review(set), "background").dial.f_number;
    set.meter.reflected_k = 14.0;
    const double other = *spot(quick_review(set), "background").dial.f_number;
    // ISO 2720: N² = L t S / K.
    CHECK(stops_between_f_numbers(usual, other) == Approx(-std::log2(14.0 / 12.5)).margin(1e-9));
}

TEST_CASE("The lit cheek reads more than the shadow side, and both less with less light",
          "[meter]") {
    Set set = plain_set();
    set.lights = {light_at("key", "octa-90", {-1.3, 2.1, 0.9}, {0, 1.59, 0.08})};
    const Review review = quick_review(set);
    const double lit = spot(review, "face, lit side").luminance_cd_s_m2;
    CHECK(lit > 2.0 * spot(review, "face, shadow side").luminance_cd_s_m2);
    set.lights[0].head.power_stops_below += 1.0;
    CHECK(spot(quick_review(set), "face, lit side").luminance_cd_s_m2 ==
          Approx(0.5 * lit).epsilon(1e-9));
    set.camera.position_m = {0.0, 1.58, -1.5};
    CHECK(spot(quick_review(set), "forehead").note == "hidden from the camera");
}

TEST_CASE("Key f/11 and fill f/5.6 are 4:1 and 5:1, said both ways", "[meter]") {
    // Case of the two definitions: 2.0 stops, and log2 5 = 2.32 stops.
    Set set = plain_set();
    set.lights = {light_at("key", "octa-90", {-1.0, 2.1, 1.2}, {0, 1.59, 0.08}),
                  light_at("fill", "octa-90", {0.4, 1.8, 2.0}, {0, 1.59, 0.08})};
    const Review now = quick_review(set);
    make_read(set.lights[0], now.lights[0], exact_f_number(11));
    make_read(set.lights[1], now.lights[1], exact_f_number(5.6));
    const Review review = quick_review(set);
    CHECK(*review.exposure.ratio_key_to_fill == Approx(4.0).epsilon(1e-6));
    CHECK(*review.exposure.stops_key_over_fill == Approx(2.0).margin(1e-6));
    CHECK(*review.exposure.ratio_lit_to_shadow == Approx(5.0).epsilon(1e-6));
    CHECK(*review.exposure.stops_lit_to_shadow == Approx(2.32).margin(0.005));
    const std::string text = review_text(review);
    CHECK(text.find("4.0:1 (K:F), 2.0 stops") != std::string::npos);
    CHECK(text.find("5.0:1 ((K+F):F), 2.3 stops") != std::string::npos);
}
