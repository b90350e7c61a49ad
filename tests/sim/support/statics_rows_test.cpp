// Every published statics value (checks.csv 132-169), through the functions the review uses.
// Row 160 does not exist in the table's statics part.
#include "sim/base/units.h"
#include "sim/support/ballast.h"
#include "sim/support/foot_loads.h"
#include "sim/support/rig.h"
#include "sim/support/tipping.h"
#include "support/helpers/checks.h"

using namespace keystead;
using rig::mass;

namespace {

/// Three feet at 0.5 m, leg 0 toward +x (azimuth 90).
std::vector<Vec2> tripod() {
    const double side = 0.5 * std::sin(pi / 3.0);
    return {{0.5, 0.0}, {-0.25, side}, {-0.25, -side}};
}

double tripod_margin(const Vec2& com_m) {
    const auto edges = polygon_edges(convex_hull(tripod()), 0.0, com_m);
    return edges[static_cast<std::size_t>(weakest_edge(edges))].distance_m;
}

/// An edge square to +x at `at_m`, the support on its inner (lower x) side.
PolygonEdge edge_at(double at_m) {
    PolygonEdge edge;
    edge.from_m = {at_m, 1.0};
    edge.to_m = {at_m, -1.0};
    edge.outward = {1.0, 0.0};
    return edge;
}

/// Stand of 5 kg over the column, load of 3 kg at 1.0 m, counted `safety_factor` times.
std::vector<MassPoint> overhung(double safety_factor) {
    return {mass(5.0, Vec3(0.0)), mass(safety_factor * 3.0, Vec3(1.0, 0.0, 0.0))};
}

double bag_kg(double safety_factor, double behind_m) {
    const EdgeDemand stands{edge_at(0.25), 0.0, 0.0};
    const auto needed =
        mass_to_hold_kg(overhung(safety_factor), {Vec3(-behind_m, 0.0, 0.0)}, {stands}, 0.0);
    REQUIRE(needed);
    return *needed;
}

} // namespace

TEST_CASE("Inscribed radii of regular bases match the polygon's closed form", "[statics]") {
    CHECK_ROW(132, inradius_m(3, 0.50));
    CHECK_ROW(133, inradius_m(4, 0.50));
    CHECK_ROW(134, inradius_m(5, 0.50));
}

TEST_CASE("Tilt, required ratio and highest centre of mass match atan(e/h)", "[statics]") {
    CHECK_ROW(135, tilt_to_tip_deg(0.25, 1.5));
    CHECK_ROW(136, tilt_to_tip_deg(0.25 - 0.10, 1.5));
    CHECK_ROW(137, required_ratio(5.0));
    CHECK_ROW(138, required_ratio(6.0));
    CHECK_ROW(139, required_ratio(8.0));
    CHECK_ROW(140, required_ratio(10.0));
    CHECK_ROW(141, required_ratio(15.0));
    CHECK_ROW(142, highest_com_m(0.25, 10.0));
}

TEST_CASE("The push that tips matches m g e / h", "[statics]") {
    CHECK_ROW(143, push_to_tip_n(8.0, 0.25, 2.0));
    CHECK_ROW(144, push_to_tip_n(8.0, 0.25, 2.0) / (8.0 * gravity_m_s2));
}

TEST_CASE("Tripod foot loads match the balance of moments", "[statics]") {
    CHECK_ROW(145, foot_loads_n(100.0, {0.0, 0.0}, tripod())[1]);
    const auto toward = foot_loads_n(100.0, {0.1, 0.0}, tripod());
    CHECK_ROW(146, toward[0]);
    CHECK_ROW(147, toward[1]);
    CHECK_ROW(147, toward[2]);
    CHECK_ROW(148, foot_loads_n(100.0, {-0.1, 0.0}, tripod())[0]);
}

TEST_CASE("The counterweight that balances a boom matches its moments", "[statics]") {
    std::vector<MassPoint> boom{mass(4.0, Vec3(1.6, 0, 0), true), mass(3.0, Vec3(0.4, 0, 0), true)};
    const double needed_kg =
        balancing_mass_kg(moment_nm(boom, Vec3(0.0), Vec3(1.0, 0.0, 0.0)), 0.9);
    CHECK_ROW(149, needed_kg);
    boom.push_back(mass(needed_kg, Vec3(-0.9, 0, 0), true));
    CHECK_ROW(150, sum_masses(boom).mass_kg);
    CHECK(std::abs(sum_masses(boom).com_m.x) < 1e-12);
}

TEST_CASE("Centre of mass and bag masses match the textbook", "[statics]") {
    CHECK_ROW(151, sum_masses(overhung(1.0)).com_m.x);
    CHECK_ROW(152, bag_kg(1.0, 0.45));
    CHECK_ROW(153, bag_kg(1.5, 0.45));
    CHECK_ROW(154, bag_kg(1.0, 0.0));
    const auto over_leg = overturning_factor(overhung(1.0), edge_at(0.50));
    REQUIRE(over_leg);
    CHECK_ROW(155, *over_leg);
}

TEST_CASE("Margins inside and outside a tripod match point-line distances", "[statics]") {
    CHECK_ROW(156, tripod_margin({0.10, 0.05}));
    CHECK_ROW(157, tripod_margin({-0.20, 0.0}));
    CHECK_ROW(158, tripod_margin({-0.30, 0.0}));
    CHECK_ROW(159, tripod_margin(plan(sum_masses(overhung(1.0)).com_m)));
}

TEST_CASE("Snag speeds match energy and angular momentum", "[statics]") {
    CHECK_ROW(161, rise_to_tip_m(0.25, 1.5));
    CHECK_ROW(162, snag_speed_m_s(0.25, 1.5));
    CHECK_ROW(163, snag_speed_rigid_m_s(0.25, 1.5, 2.5 * 2.5 / 12.0));
    CHECK_ROW(164, snag_speed_m_s(0.35, 0.8));
}

TEST_CASE("A horizontal arm's torque shrinks with the cosine of its rise", "[statics]") {
    Light light;
    light.head.mass_kg = 2.0;
    light.modifier.mass_kg = 0.0;
    rig::add_arm(light, 1.0, 1.0, 1.1);
    CHECK_ROW(165, rig::assess_at(light, {0, 1, 0}).grip_torque_nm);
    rig::add_arm(light, 1.0, 1.0, 1.1, 40.0);
    CHECK_ROW(166, rig::assess_at(light, {0, 1, 0}).grip_torque_nm);
}

TEST_CASE("Pound-marked bags convert exactly", "[statics]") {
    CHECK_ROW(167, kilograms_from_pounds(15.0));
    CHECK_ROW(168, kilograms_from_pounds(25.0));
    CHECK_ROW(169, kilograms_from_pounds(35.0));
}
