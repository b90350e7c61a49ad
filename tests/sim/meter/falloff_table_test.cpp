// Light over distance: a calibrated box against closed-form configuration factors.
#include "sim/light/configuration_factor.h"
#include "sim/light/stops.h"
#include "sim/meter/falloff_table.h"

#include <catch2/catch.hpp>

using namespace keystead;

namespace {

/// An even, bare-faced box, calibrated by one reading of f/8 at 1.5 m.
Light box(double width_m, double height_m) {
    Light light;
    light.id = "box";
    light.modifier.shape = ModifierShape::rectangle;
    light.modifier.width_m = width_m;
    light.modifier.height_m = height_m;
    light.modifier.hot_spot = 0.0;
    light.head.calibration = calibration_from(Set{}, light, 8.0, 1.5);
    return light;
}

double stops_over(const Light& light, double from_m, double to_m) {
    const FalloffTable table = falloff_table(Set{}, light, from_m, {from_m, to_m});
    return stops_between_f_numbers(table.rows[0].f_number, table.rows[1].f_number);
}

} // namespace

TEST_CASE("A 0.6 × 0.9 m box read once at 1.5 m is predicted at 1, 2 and 3 m", "[meter][falloff]") {
    // Siegel and Howell's rectangle: exposure goes with the configuration factor.
    const FalloffTable table = falloff_table(Set{}, box(0.6, 0.9), 1.5, {1.0, 1.5, 2.0, 3.0});
    const double at_reading = rectangle_parallel(0.6, 0.9, 1.5);
    for (const FalloffRow& row : table.rows) {
        const double factor = rectangle_parallel(0.6, 0.9, row.distance_m);
        CHECK(row.f_number == Approx(8.0 * std::sqrt(factor / at_reading)).epsilon(1e-3));
        CHECK(row.rule_f_number == Approx(8.0 * 1.5 / row.distance_m).epsilon(1e-9));
    }
    CHECK(table.rows[0].stops_from_rule < -0.1); // the rule promises too much near by
    CHECK(table.rows[1].stops_from_rule == Approx(0.0).margin(1e-9));
    CHECK(table.rows[3].stops_from_rule > 0.05);
    CHECK(table.why.find("0.60 × 0.90 m") != std::string::npos);
    CHECK(table.why.find("4.5 m") != std::string::npos);
}

TEST_CASE("A 0.9 m square falls by 0.83, 1.45, 1.82 and 1.95 stops as its distance doubles",
          "[meter][falloff]") {
    // Worked by corner superposition of the same closed form; the rule says 2 each time.
    const Light square = box(0.9, 0.9);
    CHECK(stops_over(square, 0.3, 0.6) == Approx(-0.83).margin(0.01));
    CHECK(stops_over(square, 0.6, 1.2) == Approx(-1.45).margin(0.01));
    CHECK(stops_over(square, 1.2, 2.4) == Approx(-1.82).margin(0.01));
    CHECK(stops_over(square, 2.4, 4.8) == Approx(-1.95).margin(0.01));
}

TEST_CASE("A head calibrated at half power predicts from there", "[meter][falloff]") {
    Set set;
    Light light = box(0.6, 0.9);
    light.head.power_stops_below = 1.0;
    light.head.calibration = calibration_from(set, light, 8.0, 1.5);
    CHECK(falloff_table(set, light, 1.5, {1.5}).rows[0].f_number == Approx(8.0).epsilon(1e-9));
    light.head.power_stops_below = 0.0;
    CHECK(falloff_table(set, light, 1.5, {1.5}).rows[0].f_number ==
          Approx(exact_f_number(11)).epsilon(1e-9));
    set.camera.iso = 200.0;
    CHECK(falloff_table(set, light, 1.5, {1.5}).rows[0].f_number == Approx(16.0).epsilon(1e-9));
}

TEST_CASE("A calibration changed by a stop reads a stop more, from any source of output",
          "[meter][falloff]") {
    Set set;
    for (const bool continuous : {false, true}) {
        Light light = box(0.6, 0.9);
        light.head.calibration.reset();
        if (continuous) light.head.kind = HeadKind::continuous;
        light.head.power_stops_below = 2.0;
        const double before = falloff_table(set, light, 1.0, {1.0}).rows[0].f_number;
        light.head.calibration = calibration_changed_by(set, light, 1.0);
        CHECK(falloff_table(set, light, 1.0, {1.0}).rows[0].f_number ==
              Approx(f_number_plus_stops(before, 1.0)).epsilon(1e-9));
    }
}

TEST_CASE("Distances are round between their ends", "[meter][falloff]") {
    CHECK(round_distances_m(1.0, 3.0) ==
          std::vector<double>{1.0, 1.25, 1.5, 1.75, 2.0, 2.25, 2.5, 2.75, 3.0});
    CHECK(round_distances_m(0.9, 1.0) == std::vector<double>{0.9, 0.95, 1.0});
    CHECK(round_distances_m(0.05, 100.0).size() <= 10);
    CHECK(round_distances_m(2.0, 2.0) == std::vector<double>{2.0});
}
