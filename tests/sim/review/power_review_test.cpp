// Too little and too much power, through the whole review.
#include "tests/sim/review/bench_sets.h"

#include "sim/light/stops.h"
#include "sim/review/ways_out.h"

#include <catch2/catch.hpp>

using namespace keystead;
using namespace bench;

namespace {

/// A small hard lamp 2 m before the face: the inverse square holds to a thousandth.
Set one_lamp() {
    Set set = plain_set();
    set.lights.push_back(light_at("key", "reflector-18", {0.0, 2.4, 1.9}, {0, 1.59, 0.08}));
    return set;
}

/// The camera set so that the face is `stops` under (−) or over (+) it.
void expose_off(Set& set, double stops) {
    const Review now = quick_review(set);
    set.camera.f_number =
        f_number_plus_stops(*now.exposure.face_f_number, -std::round(3.0 * stops) / 3.0);
}

} // namespace

TEST_CASE("A head at full power that is two stops short is said to be, with three ways out",
          "[review][light]") {
    Set set = one_lamp();
    set.lights[0].head.power_stops_below = 1.0;
    expose_off(set, -3.0);
    const Review review = quick_review(set);
    const Finding* short_of = finding(review, "power-short", "key");
    REQUIRE(short_of != nullptr);
    CHECK(short_of->level == Level::warning);
    const double missing = -*review.exposure.stops_off - 1.0;
    CHECK(missing == Approx(2.0).margin(0.2));
    // Inverse square: half the distance for two stops.
    const double share = 100.0 * std::exp2(-missing / 2.0);
    const std::size_t at = short_of->remedy.find(" % of where it is");
    REQUIRE(at != std::string::npos);
    CHECK(std::stod(short_of->remedy.substr(at - 2, 2)) == Approx(share).margin(1.0));
    CHECK(short_of->remedy.find("ISO") != std::string::npos);
    CHECK(short_of->remedy.find("modifier") != std::string::npos);
}

TEST_CASE("A head whose lowest power is too much for an open lens is said to be",
          "[review][light]") {
    Set set = one_lamp();
    set.lights[0].head.range_stops = 5.0;
    set.lights[0].head.power_stops_below = 4.0;
    expose_off(set, 2.0);
    const Review review = quick_review(set);
    const Finding* over = finding(review, "power-over", "key");
    REQUIRE(over != nullptr);
    CHECK(over->message.find("too much") != std::string::npos);
    CHECK(over->remedy.find("neutral") != std::string::npos);
    CHECK_FALSE(finding(review, "power-short"));
    // Within its range nothing is said.
    set.lights[0].head.range_stops = 8.0;
    CHECK_FALSE(finding(quick_review(set), "power-over"));
}

TEST_CASE("Speeds are printed as the scale's next mark", "[review]") {
    CHECK(iso_at_least(100.0) == "100");
    CHECK(iso_at_least(100.0 * std::exp2(2.0 / 3.0)) == "160");
    CHECK(iso_at_least(101.0) == "100");
    CHECK(iso_at_least(110.0) == "125");
    CHECK(iso_at_least(900.0) == "1000");
    CHECK(iso_at_least(3200.0) == "3200");
    CHECK(iso_at_least(50.0) == "50");
}
