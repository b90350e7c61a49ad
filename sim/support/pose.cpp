#include "sim/support/pose.h"

#include "sim/base/frames.h"

#include <algorithm>
#include <cmath>

namespace keystead {

namespace {

/// Strap from the hanging point to the middle of a bag, and the bag's own half height.
constexpr double strap_m = 0.20;
constexpr double bag_half_height_m = 0.08;
/// Lamp to apex of a large umbrella.
constexpr double longest_shaft_m = 0.60;

Vec3 horizontal(double azimuth_deg) {
    return direction_from({azimuth_deg, 0.0});
}

Vec3 unit_or(const Vec3& vector, const Vec3& fallback) {
    const double length = glm::length(vector);
    return length > 1e-9 ? vector / length : fallback;
}

Vec3 leg_direction(const Base& base, int leg) {
    return horizontal(base.turn_deg + 360.0 * leg / std::max(base.legs, 1));
}

/// Base, column and arm: every joint, whatever hangs on them.
SupportPose pose_joints(const Support& support) {
    const Base& base = support.base;
    const Vec3 foot_of_column(base.position_m.x, 0.0, base.position_m.y);
    SupportPose pose;
    pose.column_top_m = foot_of_column + Vec3(0.0, support.column.height_m, 0.0);
    pose.hub_m =
        foot_of_column + Vec3(0.0, std::min(base.hub_height_m, support.column.height_m), 0.0);
    for (int leg = 0; leg < base.legs; ++leg)
        pose.feet_m.push_back(foot_of_column + base.foot_radius_m * leg_direction(base, leg));
    pose.tip_m = pose.tail_end_m = pose.counterweight_m = pose.column_top_m;
    if (!support.arm) return pose;

    const Arm& arm = *support.arm;
    pose.arm_direction = direction_from({base.turn_deg + arm.turn_deg, arm.rise_deg});
    pose.tip_m = pose.column_top_m + arm.reach_m * pose.arm_direction;
    pose.tail_end_m = pose.column_top_m - arm.tail_m() * pose.arm_direction;
    if (arm.counterweight)
        pose.counterweight_m = pose.column_top_m - arm.counterweight->place_m * pose.arm_direction;
    return pose;
}

void pose_head(SupportPose& pose, const Light& light, const AimTarget& target) {
    pose.beam_direction = beam_toward(pose.tip_m, target);
    const Mat3 level = upright_frame(pose.beam_direction);
    const double turn = radians(light.modifier.turn_deg);
    pose.head_axes[0] = std::cos(turn) * level[0] + std::sin(turn) * level[1];
    pose.head_axes[1] = std::cos(turn) * level[1] - std::sin(turn) * level[0];
    pose.head_axes[2] = level[2];
    pose.emitter_m = pose.tip_m + face_ahead_m(light) * pose.beam_direction;
}

Vec3 bag_centre(const Bag& bag, const Vec3& hanging_point_m) {
    const double hung = std::max(hanging_point_m.y - strap_m, bag_half_height_m);
    return {hanging_point_m.x, bag.hanging ? hung : bag_half_height_m, hanging_point_m.z};
}

void add_own_masses(SupportPose& pose, const Support& support) {
    const Base& base = support.base;
    const Vec3 foot_of_column(base.position_m.x, 0.0, base.position_m.y);
    pose.masses.push_back(
        {"base", base.mass_kg, foot_of_column + Vec3(0.0, base.com_height_m, 0.0), false});
    pose.masses.push_back(
        {"column", support.column.mass_kg, 0.5 * (pose.hub_m + pose.column_top_m), false});
}

void add_arm_masses(SupportPose& pose, const Arm& arm) {
    const double rod_m = std::max(arm.length_m, arm.reach_m);
    const Vec3 middle = pose.tip_m - 0.5 * rod_m * pose.arm_direction;
    pose.masses.push_back({"clamp", arm.clamp_mass_kg, pose.column_top_m, true});
    pose.masses.push_back({"arm", arm.mass_kg, middle, true});
    if (arm.counterweight)
        pose.masses.push_back(
            {"counterweight", arm.counterweight->mass_kg, pose.counterweight_m, true});
}

void add_head_masses(SupportPose& pose, const Light& light) {
    const Modifier& modifier = light.modifier;
    pose.masses.push_back({"head", light.head.mass_kg, pose.tip_m, true});
    pose.masses.push_back({"modifier", modifier.mass_kg,
                           pose.tip_m + modifier.com_ahead_m * pose.beam_direction, true});
    if (modifier.grid)
        pose.masses.push_back({"grid", modifier.grid->mass_kg, pose.emitter_m, true});
}

void add_bags(SupportPose& pose, const Support& support) {
    for (std::size_t i = 0; i < support.bags.size(); ++i) {
        const Bag& bag = support.bags[i];
        const Vec3 hung_at = bag_hangs_at_m(bag, support, pose);
        pose.bags_m.push_back(bag_centre(bag, hung_at));
        pose.masses.push_back({"bag " + std::to_string(i + 1), bag.hanging ? bag.mass_kg : 0.0,
                               bag.hanging ? hung_at : pose.bags_m.back(),
                               bag.place == BagPlace::tail});
    }
}

} // namespace

Vec3 beam_toward(const Vec3& bracket_m, const AimTarget& target) {
    const Vec3 straight = target.is_direction ? unit_or(target.direction, Vec3(0, 0, -1))
                                              : unit_or(target.point_m - bracket_m, Vec3(0, 0, -1));
    // Clockwise seen from above is a falling azimuth.
    const double turn = radians(-target.feather_deg);
    return {std::cos(turn) * straight.x + std::sin(turn) * straight.z, straight.y,
            std::cos(turn) * straight.z - std::sin(turn) * straight.x};
}

double face_ahead_m(const Light& light) {
    // The lamp looks away from the subject into a reflecting umbrella, whose shaft holds it where a
    // beam of a right angle fills the canopy; long shafts end sooner. A shoot-through one is the
    // other way about.
    if (light.modifier.shape == ModifierShape::umbrella) {
        const double lamp_to_apex_m = std::min(0.5 * light.modifier.width_m, longest_shaft_m);
        const double behind_m =
            0.5 * light.head.length_m + std::max(0.0, lamp_to_apex_m - light.modifier.depth_m);
        return light.modifier.umbrella == UmbrellaKind::shoot_through ? behind_m : -behind_m;
    }
    return 0.5 * light.head.length_m + light.modifier.depth_m;
}

Vec3 bag_hangs_at_m(const Bag& bag, const Support& support, const SupportPose& pose) {
    if (bag.place == BagPlace::tail) return pose.column_top_m - bag.at_m * pose.arm_direction;
    if (bag.place == BagPlace::column) return pose.hub_m;
    const double along = std::min(bag.at_m / std::max(support.base.foot_radius_m, 1e-6), 1.0);
    const Vec3 foot = pose.hub_m - Vec3(0.0, pose.hub_m.y, 0.0) +
                      support.base.foot_radius_m * leg_direction(support.base, bag.leg);
    return pose.hub_m + along * (foot - pose.hub_m);
}

SupportPose pose_support(const Light& light, const AimTarget& target) {
    SupportPose pose = pose_joints(light.support);
    pose_head(pose, light, target);
    add_own_masses(pose, light.support);
    if (light.support.arm) add_arm_masses(pose, *light.support.arm);
    add_head_masses(pose, light);
    add_bags(pose, light.support);
    return pose;
}

} // namespace keystead
