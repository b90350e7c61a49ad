// Measured distributions as emitters: illuminance at points against I cosθ / d² of the file's own
// candela (the inverse-square law of the handbooks).
#include "sim/light/measured.h"
#include "sim/light/meter.h"
#include "sim/photometry/photometric_file.h"
#include "support/helpers/emitters.h"

#include <catch2/catch.hpp>
#include <sstream>

using namespace keystead;

namespace {

/// LM-63 text, absolute, type C, whole turn in steps of 30°, V in steps of 10°: a beam that is
/// wider in the plane H = 0 than across it and stronger on one side.
std::string lopsided() {
    std::ostringstream text;
    text << "IESNA:LM-63-2002\n[TEST] ours\nTILT=NONE\n1 -1 1 19 13 1 2 0 0 0\n1 1 100\n";
    for (int v = 0; v <= 180; v += 10) text << v << ' ';
    text << '\n';
    for (int h = 0; h <= 360; h += 30) text << h << ' ';
    text << '\n';
    for (int h = 0; h <= 360; h += 30) {
        for (int v = 0; v <= 180; v += 10) {
            const double turn = radians(h), off = radians(v);
            const double wide = 1.0 + 0.5 * std::cos(2.0 * turn) + 0.2 * std::sin(turn);
            text << (v < 90 ? 1000.0 * std::pow(std::cos(off), 3.0) * (1.0 + wide * std::sin(off))
                            : 20.0)
                 << ' ';
        }
        text << '\n';
    }
    return text.str();
}

Distribution read(const std::string& text) {
    const auto distribution = parse_photometric(text, "ours.ies");
    REQUIRE(distribution.ok());
    return distribution.value();
}

Light lamp() {
    Light light;
    light.head.kind = HeadKind::continuous;
    light.modifier.photometric.emplace();
    return light;
}

/// Turns (V, H) of a face at the origin with its beam along +Z to a direction.
Vec3 toward(double v_deg, double h_deg) {
    const double v = radians(v_deg), h = radians(h_deg);
    return {std::sin(v) * std::cos(h), std::sin(v) * std::sin(h), std::cos(v)};
}

double lux(const Emitter& emitter, const Vec3& direction, double distance_m, double tilt_deg = 0) {
    Probe probe;
    probe.position_m = distance_m * direction;
    const Vec3 aside = glm::normalize(glm::cross(direction, Vec3(0.3, 1.0, 0.2)));
    probe.facing = -std::cos(radians(tilt_deg)) * direction + std::sin(radians(tilt_deg)) * aside;
    return exposure_at(emitter, probe, nullptr, 610);
}

} // namespace

TEST_CASE("A measured lamp lights points by the file's candela over distance squared",
          "[measured]") {
    const Distribution file = read(lopsided());
    for (const ModifierShape shape :
         {ModifierShape::bare, ModifierShape::disc, ModifierShape::rectangle}) {
        Emitter emitter = emitters::face(shape, 0.02, 0.02, 1.0);
        fit_measured(emitter, lamp(), direction_table(file, 0.0), {});
        for (const double v : {0.0, 12.0, 27.0, 45.0, 63.0, 76.0})
            for (const double h : {0.0, 30.0, 100.0, 200.0, 345.0}) {
                const double candela = candela_at(file, v, h);
                CHECK(lux(emitter, toward(v, h), 3.0) == Approx(candela / 9.0).epsilon(2e-3));
                CHECK(lux(emitter, toward(v, h), 3.0, 50.0) ==
                      Approx(candela / 9.0 * std::cos(radians(50.0))).epsilon(4e-3));
            }
    }
    // Behind it only a lamp that shines all round sends the file's light.
    Emitter ball = emitters::face(ModifierShape::bare, 0.02, 0.02, 1.0);
    fit_measured(ball, lamp(), direction_table(file, 0.0), {});
    CHECK(lux(ball, toward(150, 40), 2.0) == Approx(20.0 / 4.0).epsilon(2e-3));
}

TEST_CASE("A turn of the file turns its light about the beam", "[measured]") {
    const Distribution file = read(lopsided());
    Emitter emitter = emitters::face(ModifierShape::disc, 0.02, 0.02, 1.0);
    fit_measured(emitter, lamp(), direction_table(file, 90.0), {});
    for (const double h : {0.0, 30.0, 100.0, 200.0})
        CHECK(lux(emitter, toward(40, h + 90.0), 3.0) ==
              Approx(candela_at(file, 40, h) / 9.0).epsilon(2e-3));
}

TEST_CASE("A table holds the file's flux, and stated lumens scale it", "[measured]") {
    const Distribution file = read(lopsided());
    const auto table = direction_table(file, 0.0);
    CHECK(table->lumens == Approx(lumens_of(file)).epsilon(1e-3));
    Light light = lamp();
    Emitter emitter = emitters::face(ModifierShape::disc, 0.02, 0.02, 1.0);
    fit_measured(emitter, light, table, {});
    const double own = lux(emitter, toward(20, 0), 3.0);
    light.modifier.photometric->lumens = 2.0 * table->lumens;
    fit_measured(emitter, light, table, {});
    CHECK(lux(emitter, toward(20, 0), 3.0) == Approx(2.0 * own));
    // A flash takes the shape from the file and the output from its energy.
    light.modifier.photometric->lumens.reset();
    light.head.kind = HeadKind::flash;
    light.modifier.transmission = 0.5;
    fit_measured(emitter, light, table, {});
    CHECK(emitter.exitance * emitter.area_m2 == Approx(400 * 38 * 0.5));
    // A meter reading fixes it whatever the file says: f/8 at ISO 100 is 160 lx·s (C = 250).
    light.head.calibration.emplace();
    light.head.calibration->distance_m = 2.0;
    fit_measured(emitter, light, table, {});
    CHECK(lux(emitter, toward(0, 0), 2.0) == Approx(160.0).epsilon(2e-3));
}

TEST_CASE("A large measured face keeps its intensity far away and its size near by", "[measured]") {
    const Distribution file = read(lopsided());
    Emitter emitter = emitters::face(ModifierShape::rectangle, 0.6, 0.6, 1.0);
    fit_measured(emitter, lamp(), direction_table(file, 0.0), {});
    CHECK(lux(emitter, toward(40, 60), 30.0) ==
          Approx(candela_at(file, 40, 60) / 900.0).epsilon(5e-3));
    CHECK(lux(emitter, toward(0, 0), 0.5) < 0.9 * candela_at(file, 0, 0) / 0.25);
}
