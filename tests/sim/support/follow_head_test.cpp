// A light that keeps its place to a moving head: rigid geometry, and the limits that stop it.
#include "sim/support/follow_head.h"

#include "sim/base/frames.h"
#include "tests/sim/support/hall.h"

#include <catch2/catch.hpp>

using namespace keystead;

namespace {

const Vec3 neck(0.05, 1.45, -0.05), face(0.05, 1.58, 0.06);

Light boomed() {
    Light light;
    light.id = "key";
    light.support.base.position_m = {1.1, 1.0};
    light.support.base.turn_deg = 30.0;
    light.support.column.height_m = 2.0;
    light.support.column.min_height_m = 1.0;
    light.support.column.max_height_m = 2.6;
    light.support.arm = Arm{};
    light.support.arm->turn_deg = 160.0;
    light.support.arm->rise_deg = 20.0;
    light.aim.kind = AimKind::landmark;
    return light;
}

SupportPose pose_of(const Light& light, const Vec3& landmark) {
    AimTarget target;
    target.feather_deg = light.aim.feather_deg;
    target.point_m = light.aim.kind == AimKind::point ? light.aim.point_m : landmark;
    if (light.aim.kind == AimKind::angles) {
        target.is_direction = true;
        target.direction = direction_from({light.aim.azimuth_deg, light.aim.elevation_deg});
    }
    return pose_support(light, target);
}

Mat3 axes_of(const HeadPose& head) {
    return head_rotation(head.turn_deg, head.nod_deg, head.roll_deg);
}

/// A place of the room as the head has it.
Vec3 in_head(const HeadPose& head, const Vec3& point_m) {
    return glm::transpose(axes_of(head)) * (point_m - neck);
}

} // namespace

TEST_CASE("A light that follows hangs where the head would carry it", "[support][follow]") {
    for (const AimKind kind : {AimKind::landmark, AimKind::point, AimKind::angles})
        for (const double feather : {0.0, 15.0}) {
            Light light = boomed();
            light.aim.kind = kind;
            light.aim.feather_deg = feather;
            light.aim.point_m = {0.0, 1.4, 0.1};
            light.aim.azimuth_deg = -130.0;
            light.aim.elevation_deg = -20.0;
            const HeadPose from{-15.0, 4.0, -3.0}, to{25.0, 4.0, -3.0};
            const SupportPose now = pose_of(light, face);
            const FollowedLight followed = follow_head(light, now, hall(), {neck, from, to});
            CHECK(followed.stopped_by.empty());
            CHECK(followed.share == 1.0);
            // The head turns about the upright through the neck, and so does the landmark aimed at.
            const Vec3 face_after =
                neck + axes_of(to) * (glm::transpose(axes_of(from)) * (face - neck));
            const SupportPose after = pose_of(followed.light, face_after);
            CHECK(glm::length(in_head(to, after.emitter_m) - in_head(from, now.emitter_m)) < 1e-9);
            CHECK(glm::length(glm::transpose(axes_of(to)) * after.beam_direction -
                              glm::transpose(axes_of(from)) * now.beam_direction) < 1e-9);
            CHECK(followed.light.support.column.height_m == Approx(2.0));
        }
}

TEST_CASE("A lifted chin lifts the light, and the column says how far", "[support][follow]") {
    Light light = boomed();
    light.support.arm.reset();
    light.support.base.position_m = {0.2, 1.6};
    const SupportPose now = pose_of(light, face);
    const HeadPose level{}, up{0.0, 40.0, 0.0};
    const FollowedLight followed = follow_head(light, now, hall(), {neck, level, up});
    CHECK(followed.share > 0.0);
    CHECK(followed.share < 1.0);
    CHECK(followed.stopped_by.find("the column ends at 2.60 m") == 0);
    CHECK(followed.light.support.column.height_m <= 2.6 + 1e-6);
    CHECK(followed.light.support.column.height_m > 2.55);
    CHECK(followed.head.nod_deg == Approx(40.0 * followed.share));
    // There it still hangs where the head has it.
    const Vec3 face_after = neck + axes_of(followed.head) * (face - neck);
    const SupportPose after = pose_of(followed.light, face_after);
    CHECK(glm::length(in_head(followed.head, after.emitter_m) - in_head(level, now.emitter_m)) <
          1e-6);
}

TEST_CASE("Walls stop a light at the first that it meets", "[support][follow]") {
    const Light light = boomed();
    Room room = hall();
    // Feet reach to 1.1 m + the foot's radius; going round toward +x they need more.
    room.width_m = room.left_of_subject_m + 1.1 + light.support.base.foot_radius_m + 0.2;
    const SupportPose now = pose_of(light, face);
    const FollowedLight followed = follow_head(light, now, room, {neck, {0, 0, 0}, {60, 0, 0}});
    CHECK(followed.stopped_by.find("right of the right wall") != std::string::npos);
    CHECK(followed.share < 1.0);
    for (const Vec3& foot : pose_of(followed.light, face).feet_m)
        CHECK(foot.x <= room.width_m - room.left_of_subject_m + 1e-6);
}

TEST_CASE("A light that stands through a wall already does not move", "[support][follow]") {
    Room room = hall();
    room.width_m = room.left_of_subject_m + 1.0;
    const Light light = boomed();
    const FollowedLight followed =
        follow_head(light, pose_of(light, face), room, {neck, {0, 0, 0}, {10, 0, 0}});
    CHECK(followed.share == 0.0);
    CHECK_FALSE(followed.stopped_by.empty());
    CHECK(followed.light.support.base.position_m == light.support.base.position_m);
}
