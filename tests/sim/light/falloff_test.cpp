#include "sim/light/falloff.h"

#include "sim/light/configuration_factor.h"
#include "sim/light/sensor.h"
#include "sim/light/stops.h"
#include "support/helpers/checks.h"

#include <array>
#include <vector>

using namespace keystead;

TEST_CASE("Shadow edges are as wide as similar triangles make them", "[falloff]") {
    CHECK_ROW(110, penumbra_width_m(0.6, 1.5, 0.03));
    CHECK_ROW(111, penumbra_width_m(0.1, 1.5, 0.03));
    // A flag 0.5 m before the source, subject at 2.0 m: dish 0.54 m, box 2.7 m.
    CHECK(penumbra_width_m(0.18, 0.5, 1.5) == Approx(0.54).margin(0.01));
    CHECK(penumbra_width_m(0.9, 0.5, 1.5) == Approx(2.7).margin(0.01));
    // The nose stands 25 mm proud: 15 mm and 7.6 mm from a 0.9 m box, 3 mm from a dish.
    CHECK(1e3 * penumbra_width_m(0.9, 1.5 - 0.025, 0.025) == Approx(15).margin(0.5));
    CHECK(1e3 * penumbra_width_m(0.9, 3.0 - 0.025, 0.025) == Approx(7.6).margin(0.1));
    CHECK(1e3 * penumbra_width_m(0.18, 1.5 - 0.025, 0.025) == Approx(3.0).margin(0.1));
}

TEST_CASE("A background lit only by the key's spill, in stops against grey", "[falloff]") {
    CHECK_ROW(184, background_stops_against_grey(0.85, 1.2, 3.2));
    CHECK_ROW(185, background_stops_against_grey(0.04, 1.2, 3.2));
}

TEST_CASE("White paper behind comes out grey, by how far the key is", "[falloff]") {
    // 90 % paper 2 m behind a key at 1.2, 2.4 and 0.6 m; stops within 0.01, codes within 1.
    const auto paper_code = [](double key_m) {
        return srgb_code(0.9 * std::exp2(inverse_square_stops(key_m, key_m + 2.0)));
    };
    CHECK(inverse_square_stops(1.2, 3.2) == Approx(-2.83).margin(0.01));
    CHECK(paper_code(1.2) == Approx(100).margin(1));
    CHECK(inverse_square_stops(2.4, 4.4) == Approx(-1.75).margin(0.01));
    CHECK(paper_code(2.4) == Approx(141).margin(1));
    CHECK(inverse_square_stops(0.6, 2.6) == Approx(-4.23).margin(0.01));
    CHECK(paper_code(0.6) == Approx(62).margin(1));
    const int ladder[] = {243, 179, 130, 94, 67, 47};
    for (int stops = 0; stops < 6; ++stops)
        CHECK(srgb_code(0.9 * std::exp2(-stops)) == Approx(ladder[stops]).margin(1));
}

TEST_CASE("Paper needs a third to half a stop to be white, and more comes back at the subject",
          "[falloff]") {
    CHECK(stops_to_white(0.9) == Approx(0.15).margin(0.005));
    CHECK(stops_to_white(0.8) == Approx(0.32).margin(0.005));
    // 2.7 x 2.5 m lit evenly, subject 1.5 and 3 m off, facing it: stops against the key.
    const auto wrap = [](double over_stops, double distance_m) {
        return over_stops + std::log2(0.9 * rectangle_parallel(2.7, 2.5, distance_m));
    };
    CHECK(wrap(0.5, 1.5) == Approx(-0.7).margin(0.1));
    CHECK(wrap(1.0, 1.5) == Approx(-0.2).margin(0.1));
    CHECK(wrap(2.0, 1.5) == Approx(0.8).margin(0.1));
    CHECK(wrap(0.5, 3.0) == Approx(-2.0).margin(0.1));
    CHECK(wrap(1.0, 3.0) == Approx(-1.5).margin(0.1));
    CHECK(wrap(2.0, 3.0) == Approx(-0.5).margin(0.1));
}

TEST_CASE("Distance alone does not turn white paper black", "[falloff]") {
    const double black = srgb_decode(8.0 / 255.0);
    const auto stops_needed = [&](double reflectance) { return std::log2(black / reflectance); };
    CHECK(stops_needed(0.90) == Approx(-8.5).margin(0.05));
    CHECK(stops_needed(0.18) == Approx(-6.2).margin(0.05));
    CHECK(stops_needed(0.04) == Approx(-4.0).margin(0.05));
    CHECK(distance_factor_of_stops(stops_needed(0.90)) == Approx(19).margin(0.5));
    CHECK(distance_factor_of_stops(stops_needed(0.18)) == Approx(8.6).margin(0.05));
    CHECK(distance_factor_of_stops(stops_needed(0.04)) == Approx(4.1).margin(0.05));
}

TEST_CASE("White walls lift the shadows by the cavity estimate", "[falloff]") {
    // 4 x 5 x 2.5 m, softbox key at 1.5 m. Black cloth taken as 5 % (common practice).
    const auto room = [](double long_walls, double short_walls, double ceiling, double floor) {
        return std::vector<RoomSurface>{
            {2 * 5 * 2.5, long_walls}, {2 * 4 * 2.5, short_walls}, {20, ceiling}, {20, floor}};
    };
    CHECK(room_bounce_stops(room(0.8, 0.8, 0.8, 0.8), 1.5) == Approx(-1.6).margin(0.1));
    CHECK(room_bounce_stops(room(0.8, 0.8, 0.8, 0.3), 1.5) == Approx(-2.5).margin(0.1));
    CHECK(room_bounce_stops(room(0.05, 0.8, 0.8, 0.3), 1.5) == Approx(-3.8).margin(0.1));
    CHECK(room_bounce_stops(room(0.05, 0.05, 0.05, 0.05), 1.5) == Approx(-7.8).margin(0.1));
    CHECK(room_bounce_stops(room(0.8, 0.8, 0.8, 0.8), 1.0) -
              room_bounce_stops(room(0.8, 0.8, 0.8, 0.8), 1.5) ==
          Approx(-1.2).margin(0.1));
}

TEST_CASE("A head's shadow on the wall moves with the key's angles", "[falloff]") {
    const Vec2 wide = shadow_shift(1.2, 40, 35);
    CHECK(wide.x == Approx(1.01).margin(0.01));
    CHECK(wide.y == Approx(1.10).margin(0.01));
    CHECK(shadow_shift(1.2, 15, 35).x == Approx(0.32).margin(0.01));
}

TEST_CASE("Feathering a flat box costs its cosine and makes it narrower, not softer", "[falloff]") {
    CHECK(feathering_stops(30) == Approx(-0.21).margin(0.005));
    CHECK(100 * apparent_width_m(0.9, 30) == Approx(78).margin(0.5));
    CHECK(feathering_stops(45) == Approx(-0.5).margin(0.005));
    CHECK(feathering_stops(60) == Approx(-1.0).margin(0.005));
}
