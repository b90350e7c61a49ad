#include "sim/light/exposure.h"

#include "sim/light/stops.h"
#include "support/helpers/checks.h"

#include <array>

using namespace keystead;

TEST_CASE("Reflected and incident meters follow ISO 2720", "[exposure]") {
    CHECK_ROW(1, metered_luminance(16, 1.0 / 100, 100, 12.5));
    CHECK_ROW(2, metered_luminance(8, 1, 100, 12.5));
    CHECK_ROW(3, metered_illuminance(8, 1, 100, 250));
    CHECK_ROW(4, metered_luminance(1, 1, 100));
    CHECK_ROW(5, metered_illuminance(1, 1, 100));
    CHECK_ROW(6, metered_illuminance(16, 1.0 / 100, 100, 250));
    CHECK_ROW(7, metered_illuminance(16, 1.0 / 100, 100, 330));
    CHECK_ROW(8, metered_illuminance(16, 1.0 / 100, 100, 340));
    CHECK_ROW(9, f_number_of_illuminance(1000, 1.0 / 125, 100, 250));
    CHECK_ROW(10, f_number_of_luminance(100, 1.0 / 60, 400, 12.5));
}

TEST_CASE("Exposure values and the reflectance implied by K and C", "[exposure]") {
    CHECK_ROW(11, exposure_value_100(8, 1.0 / 125, 100));
    CHECK_ROW(12, exposure_value_100(exact_f_number(5.6), 1.0 / 60, 400));
    CHECK_ROW(13, calibration_reflectance(12.5, 250));
    CHECK_ROW(14, calibration_reflectance(14, 250));
    CHECK_ROW(15, calibration_reflectance(12.5, 320));
    CHECK_ROW(16, calibration_reflectance(12.5, 330));
    CHECK_ROW(17, calibration_reflectance(12.5, 340));
}

TEST_CASE("Flash exposure is C N² / S and adds over lights and pops", "[exposure]") {
    CHECK_ROW(18, exposure_of_f_number(8, 100, 250));
    CHECK_ROW(19, exposure_of_f_number(exact_f_number(11), 100, 250));
    CHECK_ROW(20, exposure_of_f_number(exact_f_number(5.6), 100, 250));
    CHECK_ROW(21, exposure_of_f_number(16, 100, 250));
    CHECK_ROW(22, exposure_of_f_number(8, 100, 330));
    CHECK_ROW(23, exposure_of_f_number(8, 100, 340));
    CHECK_ROW(24, f_number_of_exposure(500, 100, 250));
    CHECK_ROW(25, f_number_of_exposure(500, 200, 330));
    CHECK_ROW(26, f_number_of_sum(std::array{8.0, exact_f_number(5.6)}));
    CHECK_ROW(27, f_number_of_pops(8, 4));
}

TEST_CASE("Adding lights: f/8 twice is f/11.3, f/8 and f/5.6 is f/9.8, with f/4 f/10.6",
          "[exposure]") {
    // Worked from the sum of squares; common question of photographers, tolerance a tenth of a
    // stop.
    CHECK(f_number_of_sum(std::array{8.0, 8.0}) == Approx(11.3).margin(0.05));
    const double two = f_number_of_sum(std::array{8.0, exact_f_number(5.6)});
    CHECK(two == Approx(9.8).margin(0.05));
    CHECK(stops_between_f_numbers(8, two) == Approx(0.58).margin(0.01));
    CHECK(f_number_of_sum(std::array{8.0, exact_f_number(5.6), 4.0}) == Approx(10.6).margin(0.05));
}

TEST_CASE("A lighting ratio has two definitions and both are given", "[exposure]") {
    CHECK_ROW(176, lighting_ratio(8, 8).lit_to_shadow);
    CHECK_ROW(177, lighting_ratio(f_number_plus_stops(8, 1), 8).lit_to_shadow);
    CHECK_ROW(178, lighting_ratio(f_number_plus_stops(8, 2), 8).lit_to_shadow);
    CHECK_ROW(179, lighting_ratio(f_number_plus_stops(8, 3), 8).lit_to_shadow);
    CHECK_ROW(180, stops_key_over_fill(4));
    CHECK_ROW(181, stops_key_over_fill(8));
    const KeyAndFill four = solve_key_and_fill(8, 4), three = solve_key_and_fill(8, 3);
    CHECK_ROW(182, lighting_ratio(four.key_f_number, four.fill_f_number).stops_lit_to_shadow);
    CHECK_ROW(183, lighting_ratio(three.key_f_number, three.fill_f_number).stops_lit_to_shadow);
    // Key f/11 and fill f/5.6, each alone, both on the lit side: 4:1 of lights, 5:1 of sides.
    const LightingRatio asked = lighting_ratio(exact_f_number(11), exact_f_number(5.6));
    CHECK(asked.key_to_fill == Approx(4.0));
    CHECK(asked.stops_key_over_fill == Approx(2.0));
    CHECK(asked.lit_to_shadow == Approx(5.0));
    CHECK(asked.stops_lit_to_shadow == Approx(2.32).margin(0.005));
}

TEST_CASE("Key and fill are solved for a wanted total and ratio", "[exposure]") {
    const KeyAndFill solved = solve_key_and_fill(8, 3);
    CHECK(solved.fill_f_number == Approx(4.62).margin(0.005));
    CHECK(solved.key_f_number == Approx(6.53).margin(0.005));
    CHECK(stops_between_f_numbers(4, solved.fill_f_number) == Approx(0.42).margin(0.005));
    CHECK(stops_between_f_numbers(exact_f_number(5.6), solved.key_f_number) ==
          Approx(0.42).margin(0.005));
    CHECK(f_number_of_sum(std::array{solved.key_f_number, solved.fill_f_number}) == Approx(8.0));
    // Key set to f/8 first and fill two to one added after: 0.58 stop over.
    const double over = f_number_of_sum(std::array{8.0, f_number_plus_stops(8, -1)});
    CHECK(stops_between_f_numbers(8, over) == Approx(0.58).margin(0.01));
}

TEST_CASE("Room light leaks into a flash exposure by shutter and aperture alone", "[exposure]") {
    const AmbientShare shut = ambient_share(100, 8, 1.0 / 125, 100);
    CHECK(shut.stops_below_exposure == Approx(-7.6).margin(0.05));
    CHECK(shut.stops_added < 0.01);
    const AmbientShare open = ambient_share(100, 2, 1.0 / 60, 100);
    CHECK(open.stops_below_exposure == Approx(-2.6).margin(0.05));
    CHECK(open.stops_added == Approx(0.22).margin(0.005));
}

TEST_CASE("Past sync speed the second curtain darkens part of the frame", "[exposure]") {
    CHECK(sync_dark_fraction(1.0 / 320, 0.004) == Approx(0.22).margin(0.005));
    CHECK(sync_dark_fraction(1.0 / 500, 0.004) == Approx(0.50));
    CHECK(sync_dark_fraction(1.0 / 250, 0.004) == 0.0);
    CHECK(sync_dark_fraction(1.0 / 320, 0.004, 0.0005) > sync_dark_fraction(1.0 / 320, 0.004));
    CHECK(sync_dark_fraction(1.0 / 8000, 0.004, 0.01) == 1.0);
}
