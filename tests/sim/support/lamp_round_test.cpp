// A lamp carried round a face: it hangs where it was wanted, or at its support's limit.
#include "sim/support/lamp_round.h"

#include "sim/base/frames.h"
#include "tests/sim/support/hall.h"

#include <catch2/catch.hpp>
#include <cmath>

using namespace keystead;

namespace {

const Vec3 face(0.0, 1.58, 0.06);

Light standing() {
    Light light;
    light.id = "key";
    light.support.base.position_m = {0.9, 1.0};
    light.support.column.height_m = 2.0;
    light.support.column.min_height_m = 1.0;
    light.support.column.max_height_m = 2.6;
    light.aim.kind = AimKind::landmark;
    return light;
}

Light boomed() {
    Light light = standing();
    light.support.base.position_m = {1.5, 1.4};
    light.support.base.turn_deg = 30.0;
    light.support.arm = Arm{};
    light.support.arm->turn_deg = 190.0;
    light.support.arm->rise_deg = 20.0;
    return light;
}

AimTarget at_face(const Light& light) {
    AimTarget target;
    target.point_m = face;
    target.feather_deg = light.aim.feather_deg;
    return target;
}

RoundLamp carried(const Light& light, Angles wanted, const Room& room = hall()) {
    return lamp_round(light, pose_support(light, at_face(light)), room,
                      {face, direction_from(wanted), face});
}

Angles direction(const RoundLamp& lamp) {
    return angles_of(lamp.pose.emitter_m - face);
}

} // namespace

TEST_CASE("A lamp carried round the face keeps its distance and hangs where it was wanted",
          "[support][round]") {
    for (Light light : {standing(), boomed()})
        for (const double feather : {0.0, 8.0}) {
            light.aim.feather_deg = feather;
            const SupportPose now = pose_support(light, at_face(light));
            for (const Angles wanted :
                 {Angles{40, 20}, Angles{-55, 10}, Angles{120, 25}, Angles{5, -5}}) {
                const RoundLamp lamp = carried(light, wanted);
                INFO("azimuth " << wanted.azimuth_deg << ": " << lamp.pushed_back);
                CHECK(lamp.pushed_back.empty());
                CHECK(direction(lamp).azimuth_deg == Approx(wanted.azimuth_deg).margin(0.02));
                CHECK(direction(lamp).elevation_deg == Approx(wanted.elevation_deg).margin(0.02));
                CHECK(glm::distance(lamp.pose.emitter_m, face) ==
                      Approx(glm::distance(now.emitter_m, face)).margin(1e-3));
                // The document alone says the same: posed anew it hangs there.
                const SupportPose again = pose_support(lamp.light, at_face(lamp.light));
                CHECK(glm::distance(again.emitter_m, lamp.pose.emitter_m) < 1e-9);
                // Feet stay on the floor under it, arm and modifier stay as they are.
                CHECK(lamp.light.support.base.position_m.x == Approx(lamp.pose.hub_m.x));
                if (light.support.arm)
                    CHECK(lamp.light.support.arm->rise_deg == Approx(light.support.arm->rise_deg));
            }
        }
}

TEST_CASE("A column's end holds the lamp down, and the limit says its number", "[support][round]") {
    const Light light = standing();
    const RoundLamp lamp = carried(light, {30, 85});
    CHECK(lamp.light.support.column.height_m == Approx(2.6).margin(2e-3));
    CHECK(direction(lamp).azimuth_deg == Approx(30.0).margin(0.05));
    CHECK(lamp.pushed_back.find("the column ends at 2.60 m") != std::string::npos);
    const RoundLamp low = carried(light, {30, -60});
    CHECK(low.light.support.column.height_m == Approx(1.0).margin(2e-3));
    CHECK(low.pushed_back.find("the column goes down to 1.00 m") != std::string::npos);
}

TEST_CASE("An arm rises once its column is at its end", "[support][round]") {
    const Light light = boomed();
    const double tip_m =
        light.support.column.max_height_m +
        light.support.arm->reach_m * std::sin(radians(light.support.arm->rise_deg));
    const SupportPose now = pose_support(light, at_face(light));
    const double reach = glm::distance(now.emitter_m, face);
    // The lowest elevation at which the column alone does not do, and five degrees more.
    const double elevation = degrees(std::asin(std::min(0.95, (tip_m - face.y) / reach))) + 5.0;
    const RoundLamp lamp = carried(light, {20, elevation});
    CHECK(lamp.pushed_back.empty());
    CHECK(direction(lamp).elevation_deg == Approx(elevation).margin(0.02));
    CHECK(lamp.light.support.column.height_m == Approx(2.6).margin(1e-9));
    CHECK(lamp.light.support.arm->rise_deg > light.support.arm->rise_deg);
}

TEST_CASE("A wall stops a lamp on its way round", "[support][round]") {
    Room narrow = hall();
    narrow.behind_subject_m = 0.7;
    const Light light = standing();
    const RoundLamp lamp = carried(light, {170, 20}, narrow);
    CHECK(lamp.pushed_back.find("behind the back wall") != std::string::npos);
    CHECK(direction(lamp).azimuth_deg > 45.0);
    CHECK(direction(lamp).azimuth_deg < 165.0);
    // A lamp that stands beyond a limit already stays where it is.
    Light outside = light;
    outside.support.column.max_height_m = 1.8;
    const RoundLamp stays = carried(outside, {60, 80});
    CHECK_FALSE(stays.pushed_back.empty());
}
