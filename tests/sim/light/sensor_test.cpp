#include "sim/light/sensor.h"

#include "sim/light/colour.h"
#include "sim/light/stops.h"
#include "sim/set/set.h"
#include "support/helpers/checks.h"

using namespace keystead;

TEST_CASE("The sensor plane and saturation follow ISO 12232", "[sensor]") {
    CHECK_ROW(43, lens_factor(0.90, 0.98, 10));
    CHECK_ROW(44, saturation_exposure_lx_s(100));
    CHECK_ROW(45, standard_output_exposure_lx_s(100));
    CHECK_ROW(46, fraction_of_saturation(0.18));
    CHECK_ROW(47, sensor_exposure_lx_s(1000, 1.0 / 125, 8, 0.65));
    CHECK_ROW(48, saturating_luminance_cd_m2(0));
    CHECK_ROW(49, metered_card_exposure_lx_s(0.18, 100, 250));
    CHECK_ROW(50, metered_card_exposure_lx_s(0.18, 100, 250) / saturation_exposure_lx_s(100));
    CHECK_ROW(51, metered_card_exposure_lx_s(0.18, 100, 330) / saturation_exposure_lx_s(100));
    CHECK_ROW(52, saturating_reflectance(250));
}

TEST_CASE("sRGB codes are the standard's, both ways", "[sensor]") {
    CHECK_ROW(53, srgb_code(0.18));
    CHECK_ROW(54, srgb_code(fraction_of_saturation(0.18)));
    for (int code = 0; code <= 255; ++code)
        CHECK(srgb_code(srgb_decode(code / 255.0)) == Approx(code).margin(1e-6));
    // 90 % paper metered right comes out at 243.
    CHECK(srgb_code(0.9) == Approx(243).margin(0.5));
}

TEST_CASE("CIE lightness of grey, and one stop more", "[sensor]") {
    CHECK_ROW(186, cie_lightness(0.18));
    CHECK_ROW(187, cie_lightness(0.36));
    CHECK(cie_lightness(1.0) == Approx(100));
    CHECK(cie_lightness(0.0) == Approx(0));
    // Continuous at the knee of the CIE formula.
    CHECK(cie_lightness(216.0 / 24389 * 0.999999) ==
          Approx(cie_lightness(216.0 / 24389 * 1.000001)).margin(1e-4));
}

TEST_CASE("Reflectance of index and of density", "[sensor]") {
    CHECK_ROW(217, fresnel_normal(1.376));
    CHECK_ROW(218, fresnel_normal(1.4));
    CHECK_ROW(219, fresnel_normal(1.45));
    CHECK_ROW(220, fresnel_normal(1.55));
    CHECK_ROW(221, reflectance_of_density(0.75));
}

TEST_CASE("Chart skin patches keep their published luminance through linear sRGB", "[sensor]") {
    // x, y, Y of the colour chart's "dark skin" and "light skin" (McCamy, Marcus and Davidson 1976;
    // chromaticities from memory, luminances from the rows).
    const Reflectance dark{0.1005 * linear_srgb_of_xy({0.4002, 0.3504})};
    const Reflectance light{0.3582 * linear_srgb_of_xy({0.3773, 0.3446})};
    CHECK_ROW(222, dark.luminous());
    CHECK_ROW(223, light.luminous());
    CHECK(stops_between(0.18, light.luminous()) == Approx(0.99).margin(0.005));
    CHECK(stops_between(0.18, dark.luminous()) == Approx(-0.84).margin(0.005));
}
