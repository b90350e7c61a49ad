#include "sim/light/meter.h"
#include "sim/light/receptor.h"
#include "sim/light/stops.h"
#include "support/helpers/checks.h"
#include "support/helpers/emitters.h"

using namespace keystead;

namespace {

double dome(double angle_deg) {
    return receptor_response(Receptor::dome, std::cos(radians(angle_deg)));
}

double flat(double angle_deg) {
    return receptor_response(Receptor::flat, std::cos(radians(angle_deg)));
}

/// Stops that a receptor loses when turned away from a small distant light.
double turned_stops(Receptor receptor, double angle_deg) {
    const Emitter lamp = emitters::face(ModifierShape::disc, 0.02, 0.02, 1000);
    Probe probe;
    probe.position_m = Vec3(0, 0, 4);
    probe.receptor = receptor;
    probe.facing = Vec3(0, 0, -1);
    const double straight = exposure_at(lamp, probe, nullptr);
    probe.facing = Vec3(std::sin(radians(angle_deg)), 0, -std::cos(radians(angle_deg)));
    return stops_between(straight, exposure_at(lamp, probe, nullptr));
}

} // namespace

TEST_CASE("A dome answers as a cardioid and a flat receptor as the cosine", "[receptor]") {
    CHECK_ROW(34, dome(0));
    CHECK_ROW(35, dome(45));
    CHECK_ROW(36, dome(60));
    CHECK_ROW(37, dome(90));
    CHECK_ROW(38, dome(135));
    CHECK_ROW(39, dome(180));
    CHECK_ROW(40, flat(60));
    CHECK_ROW(41, flat(120));
    CHECK_ROW(42, stops_between(flat(45), dome(45)));
}

TEST_CASE("A dome at the camera reads less than at the light, a disc far less", "[receptor]") {
    // Key 45, 60 and 90 degrees off the lens axis; tolerance 0.1 stop asked, closer here.
    CHECK(turned_stops(Receptor::dome, 60) == Approx(-0.42).margin(0.01));
    CHECK(turned_stops(Receptor::dome, 45) == Approx(-0.23).margin(0.01));
    CHECK(turned_stops(Receptor::dome, 90) == Approx(-1.0).margin(0.01));
    CHECK(turned_stops(Receptor::flat, 60) == Approx(-1.0).margin(0.01));
}
