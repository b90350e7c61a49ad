#include "sim/light/output.h"

#include "sim/light/configuration_factor.h"
#include "sim/light/exposure.h"
#include "sim/light/stops.h"
#include "support/helpers/checks.h"
#include "support/helpers/emitters.h"

using namespace keystead;

TEST_CASE("Guide numbers and beam candela-seconds convert both ways", "[output]") {
    CHECK_ROW(55, guide_number_m(4000, 100, 250));
    CHECK_ROW(56, guide_number_m(4000, 100, 250) / metres_per_foot);
    CHECK_ROW(57, intensity_of_guide_number_cd_s(58, 100, 250));
    CHECK_ROW(58, guide_coefficient_per_ft2(250));
    CHECK_ROW(59, c_of_guide_coefficient_lx_s(0.063));
    CHECK_ROW(60, stops_between(guide_coefficient_per_ft2(250), 0.063));
    CHECK_ROW(61, guide_number_at_iso(40, 100, 400));
    CHECK_ROW(62, guide_number_at_power(40, 1));
}

TEST_CASE("Stored energy becomes luminous energy, intensity and a reading", "[output]") {
    CHECK_ROW(63, flash_luminous_energy_lm_s(500, 40));
    CHECK_ROW(64, isotropic_intensity(20000));
    CHECK_ROW(65, lambertian_axial_intensity(7000));
    CHECK_ROW(66, f_number_of_exposure(exposure_of_intensity(lambertian_axial_intensity(7000), 2.5),
                                       100, 250));
    CHECK_ROW(67, 7000 / (pi * 0.45 * 0.45) * disc_on_axis(0.45, 1.2));
    CHECK_ROW(68, 500 * power_factor(5));
}

TEST_CASE("A bare lamp shines Q / 4 pi and a dish's disc four times that", "[output]") {
    Emitter bare = emitters::face(ModifierShape::bare, 0.05, 0.05, 1.0);
    bare.exitance = 20000 / bare.area_m2;
    CHECK(axial_exposure(bare, 4) == Approx(isotropic_intensity(20000) / 16).epsilon(2e-4));
    Emitter dish = emitters::face(ModifierShape::disc, 0.05, 0.05, 1.0);
    dish.exitance = 20000 / dish.area_m2;
    CHECK(axial_exposure(dish, 4) == Approx(lambertian_axial_intensity(20000) / 16).epsilon(2e-4));
}
