#include "sim/base/frames.h"
#include "sim/support/pose.h"
#include "sim/support/rig.h"

#include <catch2/catch.hpp>

using namespace keystead;
using namespace rig;

namespace {

Light armed_light() {
    Light light;
    light.support.base.position_m = {1.2, 0.8};
    light.support.base.turn_deg = 30.0;
    light.support.column.height_m = 2.1;
    Arm arm;
    arm.reach_m = 0.9;
    arm.length_m = 1.2;
    arm.rise_deg = 25.0;
    arm.turn_deg = 40.0;
    arm.counterweight = counterweight(3.0, 0.25);
    light.support.arm = arm;
    return light;
}

double distance_from_line(const Vec3& point, const Vec3& origin, const Vec3& unit) {
    return glm::length(glm::cross(point - origin, unit));
}

const MassPoint& mass_of(const SupportPose& pose, const std::string& part) {
    for (const MassPoint& mass : pose.masses)
        if (mass.part == part) return mass;
    FAIL("no part " << part);
    return pose.masses.front();
}

} // namespace

TEST_CASE("Leg 0 stands at the base's turn and the feet are evenly spaced on the floor", "[pose]") {
    Light light;
    light.support.base.position_m = {1.0, -2.0};
    light.support.base.turn_deg = 90.0; // toward camera right
    light.support.base.legs = 5;
    light.support.base.foot_radius_m = 0.6;
    const SupportPose pose = pose_support(light, at({0, 1.5, 0}));
    REQUIRE(pose.feet_m.size() == 5);
    CHECK(glm::distance(pose.feet_m[0], Vec3(1.6, 0.0, -2.0)) < 1e-12);
    const double side_m = 2.0 * 0.6 * std::sin(pi / 5.0);
    for (std::size_t i = 0; i < 5; ++i) {
        CHECK(pose.feet_m[i].y == 0.0);
        CHECK(glm::distance(pose.feet_m[i], pose.feet_m[(i + 1) % 5]) == Approx(side_m));
    }
}

TEST_CASE("Legs follow leg 0 with growing azimuth, counter-clockwise seen from above", "[pose]") {
    Light light; // leg 0 toward the camera
    const SupportPose pose = pose_support(light, at({0, 1.5, -1}));
    REQUIRE(pose.feet_m.size() == 3);
    CHECK(angles_of(pose.feet_m[1]).azimuth_deg == Approx(120.0)); // camera right, to the back
    CHECK(angles_of(pose.feet_m[2]).azimuth_deg == Approx(-120.0));
}

TEST_CASE("The arm turns from leg 0, rises from the horizontal and keeps its rod's length",
          "[pose]") {
    const SupportPose pose = pose_support(armed_light(), at({0, 1.5, 0}));
    const Angles angles = angles_of(pose.tip_m - pose.column_top_m);
    CHECK(angles.azimuth_deg == Approx(70.0));
    CHECK(angles.elevation_deg == Approx(25.0));
    CHECK(glm::distance(pose.tip_m, pose.column_top_m) == Approx(0.9));
    CHECK(glm::distance(pose.tip_m, pose.tail_end_m) == Approx(1.2));
    CHECK(glm::distance(mass_of(pose, "arm").position_m, 0.5 * (pose.tip_m + pose.tail_end_m)) <
          1e-12);
    CHECK(glm::distance(pose.counterweight_m, pose.column_top_m) == Approx(0.25));
}

TEST_CASE("The beam passes through its target and the face lies on it", "[pose]") {
    const Vec3 target_m(0.1, 1.55, -0.2);
    const SupportPose pose = pose_support(armed_light(), at(target_m));
    CHECK(distance_from_line(target_m, pose.tip_m, pose.beam_direction) < 1e-12);
    CHECK(distance_from_line(pose.emitter_m, pose.tip_m, pose.beam_direction) < 1e-12);
    CHECK(glm::dot(target_m - pose.emitter_m, pose.beam_direction) > 0.0);
    CHECK(glm::determinant(pose.head_axes) == Approx(1.0));
    CHECK(glm::distance(pose.head_axes[2], pose.beam_direction) < 1e-12);
}

TEST_CASE("Positive feather swings a front light's beam toward camera right and keeps its height",
          "[pose]") {
    Light light;
    light.support.base.position_m = {0.0, 2.0};
    const Vec3 straight = pose_support(light, at({0, 1.4, 0})).beam_direction;
    const Vec3 turned = pose_support(light, at({0, 1.4, 0}, 12.0)).beam_direction;
    CHECK(turned.x > 0.0);
    CHECK(turned.y == Approx(straight.y));
    CHECK(std::abs(wrapped_deg(angles_of(turned).azimuth_deg - angles_of(straight).azimuth_deg)) ==
          Approx(12.0));
}

TEST_CASE("The feather's sense does not flip as a light is carried round the subject", "[pose]") {
    Light light;
    for (double azimuth_deg = -180.0; azimuth_deg < 180.0; azimuth_deg += 7.0) {
        const Vec3 spot = 2.0 * direction_from({azimuth_deg, 0.0});
        light.support.base.position_m = {spot.x, spot.z};
        const Vec3 straight = pose_support(light, at({0, 2, 0})).beam_direction;
        const Vec3 turned = pose_support(light, at({0, 2, 0}, 20.0)).beam_direction;
        CHECK(glm::cross(straight, turned).y < 0.0);
    }
}

TEST_CASE("A light without an arm sits on top of its column", "[pose]") {
    Light light;
    light.support.column.height_m = 1.9;
    const SupportPose pose = pose_support(light, at({0, 1.5, -1.0}));
    CHECK(glm::distance(pose.tip_m, Vec3(0.0, 1.9, 0.0)) < 1e-12);
    CHECK(glm::length(pose.arm_direction) == 0.0);
}

TEST_CASE("Every kilogram of the document is in the pose, and a resting bag is not", "[pose]") {
    Light light = armed_light();
    light.modifier.grid = Grid{};
    light.support.bags = {bag(7.0), bag(9.0, BagPlace::leg, 1, 0.3, false)};
    const SupportPose pose = pose_support(light, at({0, 1.5, 0}));
    double total_kg = 0.0, load_kg = 0.0;
    for (const MassPoint& mass : pose.masses) {
        total_kg += mass.mass_kg;
        if (mass.load) load_kg += mass.mass_kg;
    }
    const Arm& arm = *light.support.arm;
    const double carried_kg = arm.mass_kg + arm.clamp_mass_kg + 3.0 + light.head.mass_kg +
                              light.modifier.mass_kg + light.modifier.grid->mass_kg;
    CHECK(load_kg == Approx(carried_kg));
    CHECK(total_kg ==
          Approx(carried_kg + light.support.base.mass_kg + light.support.column.mass_kg + 7.0));
    CHECK(mass_of(pose, "bag 2").mass_kg == 0.0);
}

TEST_CASE("A bag on a leg hangs above that leg and clear of the floor", "[pose]") {
    Light light;
    light.support.base.turn_deg = 0.0;
    light.support.bags = {bag(6.8, BagPlace::leg, 0, 0.30)};
    const SupportPose pose = pose_support(light, at({0, 1.5, -1}));
    const Vec3 hung_at = mass_of(pose, "bag 1").position_m;
    CHECK(hung_at.z == Approx(0.30));
    CHECK(hung_at.y ==
          Approx(0.4 * light.support.base.hub_height_m)); // 0.30 of 0.50 m down the leg
    CHECK(pose.bags_m[0].y > 0.0);
}

TEST_CASE("A modifier laid on its side turns the face's axes and nothing else", "[pose]") {
    Light light = armed_light();
    const SupportPose upright = pose_support(light, at({0, 1.5, 0}));
    light.modifier.turn_deg = 90.0;
    const SupportPose laid = pose_support(light, at({0, 1.5, 0}));
    CHECK(glm::distance(laid.head_axes[0], upright.head_axes[1]) < 1e-12);
    CHECK(glm::distance(laid.emitter_m, upright.emitter_m) == 0.0);
}
