// What must hold for every support: symmetry, continuity, and answers that keep their promise.
// Random supports from a fixed seed.
#include "sim/base/frames.h"
#include "sim/support/bad_end.h"
#include "sim/support/foot_loads.h"
#include "sim/support/random_support.h"
#include "sim/support/rig.h"
#include "sim/support/stability.h"

#include <catch2/catch.hpp>

using namespace keystead;
using rig::random_light;
using rig::RandomLight;

namespace {

constexpr int tries = 200;

RandomLight turned(RandomLight rig, double turn_deg) {
    const double c = std::cos(radians(turn_deg)), s = std::sin(radians(turn_deg));
    const auto turn = [&](double& x, double& z) {
        const double before = x;
        x = c * before + s * z;
        z = c * z - s * before;
    };
    turn(rig.light.support.base.position_m.x, rig.light.support.base.position_m.y);
    turn(rig.target_m.x, rig.target_m.z);
    rig.light.support.base.turn_deg += turn_deg;
    return rig;
}

RandomLight mirrored(RandomLight rig) {
    Support& support = rig.light.support;
    support.base.position_m.x *= -1.0;
    support.base.turn_deg *= -1.0;
    rig.target_m.x *= -1.0;
    // Threads stay right-handed in a mirrored set: the knob is not mirrored with the arm.
    if (support.arm) support.arm->turn_deg *= -1.0;
    for (Bag& bag : support.bags) bag.leg = (support.base.legs - bag.leg) % support.base.legs;
    return rig;
}

Stability assess_rig(const RandomLight& rig) {
    return rig::assess_at(rig.light, rig.target_m);
}

void check_same_figures(const Stability& a, const Stability& b) {
    CHECK(a.verdict == b.verdict);
    CHECK(a.margin_m == Approx(b.margin_m).margin(1e-9));
    CHECK(a.tip_angle_deg == Approx(b.tip_angle_deg).margin(1e-9));
    CHECK(a.push_to_tip_n == Approx(b.push_to_tip_n).margin(1e-9));
    CHECK(a.snag_speed_m_s == Approx(b.snag_speed_m_s).margin(1e-9));
    CHECK(a.worst_tip_angle_deg == Approx(b.worst_tip_angle_deg).margin(1e-9));
    CHECK(a.worst_push_n == Approx(b.worst_push_n).margin(1e-9));
    CHECK(a.grip_torque_nm == Approx(b.grip_torque_nm).margin(1e-9));
    CHECK(a.bag_least.mass_kg == Approx(b.bag_least.mass_kg).margin(1e-6));
}

/// Distance of two azimuths, the shorter way round.
double apart_deg(double a_deg, double b_deg) {
    return std::abs(wrapped_deg(a_deg - b_deg));
}

/// Every corner of the box of mass errors, by brute force.
template <class Value>
double over_all_corners(const std::vector<Lever>& levers, double uncertainty, Value value) {
    double least = 1e30;
    for (unsigned corner = 0; corner < 1U << levers.size(); ++corner) {
        std::vector<Lever> off = levers;
        for (std::size_t i = 0; i < off.size(); ++i)
            off[i].mass_kg *= (corner >> i & 1U) != 0U ? 1.0 + uncertainty : 1.0 - uncertainty;
        least = std::min(least, value(off));
    }
    return least;
}

double moment(const std::vector<Lever>& levers) {
    double sum = 0.0;
    for (const Lever& lever : levers) sum += lever.mass_kg * lever.distance_m;
    return sum;
}

double total(const std::vector<Lever>& levers) {
    double sum = 0.0;
    for (const Lever& lever : levers) sum += lever.mass_kg;
    return sum;
}

double height_moment(const std::vector<Lever>& levers) {
    double sum = 0.0;
    for (const Lever& lever : levers) sum += lever.mass_kg * lever.height_m;
    return sum;
}

} // namespace

TEST_CASE("Turning the whole set about the subject turns the answer and changes no figure",
          "[properties]") {
    std::mt19937 random(11);
    for (int i = 0; i < tries; ++i) {
        const RandomLight rig = random_light(random);
        const double turn_deg = rig::between(random, -180.0, 180.0);
        const Stability before = assess_rig(rig), after = assess_rig(turned(rig, turn_deg));
        check_same_figures(before, after);
        CHECK(after.knuckle == before.knuckle);
        if (before.edges[0].distance_m == Approx(before.edges[1].distance_m)) continue;
        CHECK(apart_deg(after.tip_direction_deg, before.tip_direction_deg + turn_deg) < 1e-6);
    }
}

TEST_CASE("A mirrored set falls the mirrored way", "[properties]") {
    std::mt19937 random(12);
    for (int i = 0; i < tries; ++i) {
        const RandomLight rig = random_light(random);
        const Stability before = assess_rig(rig), after = assess_rig(mirrored(rig));
        check_same_figures(before, after);
        CHECK(after.twist_nm == Approx(-before.twist_nm).margin(1e-9));
        CHECK(after.knuckle == before.knuckle);
        if (before.edges[0].distance_m == Approx(before.edges[1].distance_m)) continue;
        CHECK(apart_deg(after.tip_direction_deg, -before.tip_direction_deg) < 1e-6);
    }
}

TEST_CASE("Mass added low inside the feet never lowers push or margin toward falling",
          "[properties]") {
    std::mt19937 random(13);
    for (int i = 0; i < tries; ++i) {
        RandomLight rig = random_light(random);
        const Stability before = assess_rig(rig);
        rig.light.support.base.com_height_m = 0.0;
        const Stability low = assess_rig(rig);
        rig.light.support.base.mass_kg += rig::between(random, 0.5, 10.0);
        const Stability after = assess_rig(rig);
        CHECK(after.push_to_tip_n >= low.push_to_tip_n - 1e-9);
        CHECK(low.push_to_tip_n == Approx(before.push_to_tip_n).margin(1e-9));
        if (low.margin_m > 0.0)
            CHECK(after.tip_angle_deg >= low.tip_angle_deg - 1e-9);
        else
            CHECK(after.margin_m >= low.margin_m - 1e-9);
    }
}

TEST_CASE("Figures change continuously as an arm slides out, right through the fall",
          "[properties]") {
    std::mt19937 random(14);
    for (int i = 0; i < 20; ++i) {
        RandomLight rig = random_light(random);
        rig::add_arm(rig.light, 0.0, 0.0, 1.0, 10.0, rig::between(random, -180.0, 180.0));
        std::optional<Stability> previous;
        for (double reach_m = 0.05; reach_m < 3.0; reach_m += 0.001) {
            rig.light.support.arm->reach_m = rig.light.support.arm->length_m = reach_m;
            Stability now = assess(rig.light, pose_support(rig.light, rig::at(rig.target_m)), {});
            if (previous) {
                // A millimetre of reach moves no mass by more than a millimetre or two.
                CHECK(std::abs(now.margin_m - previous->margin_m) < 0.003);
                CHECK(std::abs(now.tip_angle_deg - previous->tip_angle_deg) < 0.5);
                CHECK(std::abs(now.push_to_tip_n - previous->push_to_tip_n) < 1.0);
            }
            previous = std::move(now);
        }
    }
}

TEST_CASE("The bad end found is the worst of every combination of mass errors", "[properties]") {
    std::mt19937 random(15);
    for (int i = 0; i < 60; ++i) {
        const RandomLight rig = random_light(random);
        const SupportPose pose = pose_support(rig.light, rig::at(rig.target_m));
        const Stability s = assess_rig(rig);
        for (const PolygonEdge& edge : s.edges) {
            const std::vector<Lever> levers = levers_about(pose.masses, edge);
            CHECK(least_margin_m(levers, 0.1) ==
                  Approx(over_all_corners(levers, 0.1, [](const std::vector<Lever>& off) {
                      return moment(off) / total(off);
                  })));
            CHECK(least_tilt_deg(levers, 0.1) ==
                  Approx(over_all_corners(levers, 0.1, [](const std::vector<Lever>& off) {
                      return tilt_to_tip_deg(moment(off), height_moment(off));
                  })));
            CHECK(least_push_n(levers, 2.0, 0.1) ==
                  Approx(over_all_corners(levers, 0.1, [](const std::vector<Lever>& off) {
                      return push_to_tip_n(1.0, moment(off), 2.0);
                  })));
        }
    }
}

TEST_CASE("Measured masses are taken at their word", "[properties]") {
    std::mt19937 random(16);
    for (int i = 0; i < tries; ++i) {
        RandomLight rig = random_light(random);
        rig.light.support.measured_masses = true;
        const Stability s = assess_rig(rig);
        CHECK(s.worst_margin_m == Approx(s.margin_m));
        CHECK(s.worst_tip_angle_deg == Approx(s.tip_angle_deg));
        CHECK(s.worst_push_n == Approx(s.push_to_tip_n));
    }
}

TEST_CASE("The bag asked for is enough, and a little less is not", "[properties]") {
    std::mt19937 random(17);
    const StabilityLimits limits;
    int asked = 0;
    for (int i = 0; i < tries; ++i) {
        const RandomLight rig = random_light(random);
        const Stability bare = assess_rig(rig);
        for (const Ballast& ballast : {bare.bag_least, bare.bag_there, bare.bag_split}) {
            if (ballast.mass_kg == 0.0 || ballast.place.empty()) continue;
            ++asked;
            const auto tipping = [&](double share) {
                const RandomLight bagged = rig::with_ballast(rig, ballast, share);
                const Stability s = assess_rig(bagged);
                return tipping_verdict(s.worst_margin_m, s.worst_tip_angle_deg, s.worst_push_n,
                                       limits);
            };
            CHECK(tipping(1.0) == Verdict::stable);
            CHECK(tipping(0.99) != Verdict::stable);
        }
    }
    CHECK(asked > tries / 2);
}

TEST_CASE("No single place tried needs less than the least", "[properties]") {
    std::mt19937 random(18);
    for (int i = 0; i < tries; ++i) {
        const RandomLight rig = random_light(random);
        const SupportPose pose = pose_support(rig.light, rig::at(rig.target_m));
        const Stability s = assess_rig(rig);
        const auto demands = demands_of(s.edges, s.push_height_m, StabilityLimits{});
        for (const Bag& spot : bag_spots(rig.light.support)) {
            const Ballast there = ballast_at(spot, rig.light, pose, demands, StabilityLimits{});
            if (!there.place.empty()) CHECK(there.mass_kg >= 0.98 * s.bag_least.mass_kg - 1e-9);
        }
    }
}

TEST_CASE("Foot loads carry the weight and balance about every axis", "[properties]") {
    std::mt19937 random(19);
    for (int i = 0; i < tries; ++i) {
        const RandomLight rig = random_light(random);
        const SupportPose pose = pose_support(rig.light, rig::at(rig.target_m));
        const Stability s = assess_rig(rig);
        const double weight_n = s.mass_kg * gravity_m_s2;
        double sum_n = 0.0;
        Vec2 moment_nm(0.0);
        for (std::size_t leg = 0; leg < pose.feet_m.size(); ++leg) {
            sum_n += s.foot_loads_n[leg];
            moment_nm += s.foot_loads_n[leg] * plan(pose.feet_m[leg]);
        }
        CHECK(sum_n == Approx(weight_n));
        CHECK(glm::distance(moment_nm, weight_n * plan(s.com_m)) < 1e-6 * weight_n);
    }
}

TEST_CASE("Five feet share like springs that can push but not pull", "[properties]") {
    std::mt19937 random(20);
    for (int i = 0; i < 40; ++i) {
        std::vector<Vec2> feet_m;
        for (int leg = 0; leg < 5; ++leg)
            feet_m.push_back(0.6 * Vec2(std::sin(0.4 * pi * leg), std::cos(0.4 * pi * leg)));
        const double azimuth = rig::between(random, 0.0, 2.0 * pi);
        const double out_m = rig::between(random, 0.0, 0.45);
        const Vec2 com_m = out_m * Vec2(std::sin(azimuth), std::cos(azimuth));
        // Springs settled by damped steps toward balance: no algebra shared with the solver.
        Vec3 sink(20.0, 0.0, 0.0);
        std::vector<double> springs(5);
        for (int step = 0; step < 20000; ++step) {
            Vec3 residual = 100.0 * Vec3(1.0, com_m.x, com_m.y);
            for (std::size_t leg = 0; leg < 5; ++leg) {
                const Vec3 row(1.0, feet_m[leg].x, feet_m[leg].y);
                springs[leg] = std::max(0.0, glm::dot(row, sink));
                residual -= springs[leg] * row;
            }
            sink += 0.1 * residual;
        }
        const std::vector<double> loads = foot_loads_n(100.0, com_m, feet_m);
        for (std::size_t leg = 0; leg < 5; ++leg)
            CHECK(loads[leg] == Approx(springs[leg]).margin(0.01));
    }
}

TEST_CASE("No swing of the casters leaves less than the wheeled margin, and one leaves just that",
          "[properties]") {
    std::mt19937 random(21);
    for (int i = 0; i < 40; ++i) {
        RandomLight rig = random_light(random);
        rig.light.support.base.wheels = true;
        rig.light.support.base.caster_offset_m = 0.04;
        const SupportPose pose = pose_support(rig.light, rig::at(rig.target_m));
        const Stability s = assess_rig(rig);
        const auto margin_with = [&](const std::vector<double>& swings_rad) {
            std::vector<Vec2> contacts_m;
            for (std::size_t leg = 0; leg < pose.feet_m.size(); ++leg)
                contacts_m.push_back(
                    plan(pose.feet_m[leg]) +
                    0.04 * Vec2(std::sin(swings_rad[leg]), std::cos(swings_rad[leg])));
            const auto edges = polygon_edges(convex_hull(contacts_m), 0.0, plan(s.com_m));
            return edges[static_cast<std::size_t>(weakest_edge(edges))].distance_m;
        };
        for (int swing = 0; swing < 50; ++swing) {
            std::vector<double> swings_rad;
            for (std::size_t leg = 0; leg < pose.feet_m.size(); ++leg)
                swings_rad.push_back(rig::between(random, 0.0, 2.0 * pi));
            if (s.margin_m > 0.0) CHECK(margin_with(swings_rad) >= s.margin_m - 1e-9);
        }
        const double inward_rad = radians(s.tip_direction_deg + 180.0);
        CHECK(margin_with(std::vector<double>(pose.feet_m.size(), inward_rad)) ==
              Approx(s.margin_m).margin(1e-9));
    }
}

TEST_CASE("The hull of random points encloses them all and turns one way", "[properties]") {
    std::mt19937 random(22);
    for (int i = 0; i < tries; ++i) {
        std::vector<Vec2> points_m;
        for (int k = 0; k < 12; ++k)
            points_m.push_back({rig::between(random, -1, 1), rig::between(random, -1, 1)});
        const auto edges = polygon_edges(convex_hull(points_m), 0.0, {0.0, 0.0});
        REQUIRE(edges.size() >= 3);
        double area_m2 = 0.0;
        for (const PolygonEdge& edge : edges) {
            // Page coordinates seen from above: x to the right, -z up.
            area_m2 += 0.5 * (edge.to_m.x * edge.from_m.y - edge.from_m.x * edge.to_m.y);
            for (const Vec2& point : points_m) CHECK(distance_inside_m(edge, point) >= -1e-12);
        }
        CHECK(area_m2 > 0.0);
    }
}

TEST_CASE("Heavier than a limit is a caution, even on a stand that could not tip", "[properties]") {
    Light light;
    light.support.base.mass_kg = 60.0;
    light.head.mass_kg = 7.0;
    light.modifier.mass_kg = 0.0;
    light.support.load_limit_kg = 10.0;
    CHECK(rig::assess_at(light, {0, 2, 5}).verdict == Verdict::stable);
    light.support.load_limit_kg = 8.0;
    CHECK(rig::assess_at(light, {0, 2, 5}).verdict == Verdict::caution);
}

TEST_CASE("A stand never reads stable with a reason, nor cautious without one", "[properties]") {
    std::mt19937 random(23);
    int stable = 0;
    for (int i = 0; i < 4 * tries; ++i) {
        const Stability s = assess_rig(random_light(random));
        CHECK((s.verdict == Verdict::stable) == s.reasons.empty());
        if (s.verdict == Verdict::stable) ++stable;
    }
    CHECK(stable > 0);
    CHECK(stable < 4 * tries);
}
