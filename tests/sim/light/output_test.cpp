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

namespace {

/// A box on a posed stand, as `make_emitter` sees it.
Light boxed_light() {
    Light light;
    light.modifier.shape = ModifierShape::rectangle;
    light.modifier.width_m = 0.6;
    light.modifier.height_m = 0.9;
    light.modifier.hot_spot = 0.0;
    light.modifier.depth_m = 0.3;
    return light;
}

Emitter emitter_of(const Light& light) {
    SupportPose pose;
    pose.head_axes = Mat3(1.0);
    return make_emitter(light, pose, MeterSettings{});
}

} // namespace

TEST_CASE("A beam's candela-seconds fix the far reading whatever the modifier", "[output]") {
    // H = I / d² (definition of intensity): 4000 cd·s is guide number 40 m at ISO 100 (row 55).
    for (const ModifierShape shape : {ModifierShape::rectangle, ModifierShape::disc,
                                      ModifierShape::umbrella, ModifierShape::bare}) {
        Light light = boxed_light();
        light.modifier.shape = shape;
        light.modifier.height_m = 0.6;
        light.modifier.depth_m = 0.15;
        light.head.beam_cd_s = 4000.0;
        const double far = axial_exposure(emitter_of(light), 40.0);
        CHECK(far == Approx(exposure_of_intensity(4000.0, 40.0)).epsilon(2e-3));
        CHECK(f_number_of_exposure(far, 100, 250) * 40.0 == Approx(40.0).epsilon(1e-3));
    }
}

TEST_CASE("A reading goes before a beam, a beam before a guide number, that before energy",
          "[output]") {
    Light light = boxed_light();
    light.head.energy_ws = 500.0;
    const double by_energy = emitter_of(light).exitance;
    CHECK(by_energy == Approx(500.0 * 38.0 * 0.45 / 0.54));
    light.head.guide_number_m = 58.0;
    const Emitter by_guide = emitter_of(light);
    CHECK(axial_intensity(by_guide) == Approx(8410.0).epsilon(1e-6)); // row 57
    light.head.beam_cd_s = 4000.0;
    CHECK(axial_intensity(emitter_of(light)) == Approx(4000.0).epsilon(1e-6));
    light.head.calibration = CalibrationReading{};
    light.head.calibration->distance_m = 1.5;
    CHECK(axial_exposure(emitter_of(light), 1.5) == Approx(160.0).epsilon(1e-6)); // row 18
    light.head.calibration.reset();
    // Both describe flashes: a lamp's lumens stand.
    light.head.kind = HeadKind::continuous;
    CHECK(emitter_of(light).exitance == Approx(8000.0 * 0.45 / 0.54));
}

TEST_CASE("Near a large face a guide number promises more light than there is", "[output]") {
    // Disc on the axis: M r²/(r² + d²) against I/d² with I = M r²  (row 67's formula).
    Light light = boxed_light();
    light.modifier.shape = ModifierShape::disc;
    light.modifier.width_m = light.modifier.height_m = 0.9;
    light.head.guide_number_m = 40.0;
    const double d = 1.2, r = 0.45;
    CHECK(axial_exposure(emitter_of(light), d) ==
          Approx(4000.0 / (d * d) * (d * d) / (r * r + d * d)).epsilon(1e-4));
}
