#include "sim/support/joints.h"

#include "sim/base/frames.h"

#include <algorithm>
#include <cmath>

namespace keystead {

namespace {

std::vector<MassPoint> swinging(const SupportPose& pose, bool with_counterweight) {
    std::vector<MassPoint> masses;
    for (const MassPoint& mass : pose.masses)
        if (mass.load && (with_counterweight || mass.part != "counterweight"))
            masses.push_back(mass);
    return masses;
}

} // namespace

double moment_nm(const std::vector<MassPoint>& masses, const Vec3& pivot_m, const Vec3& direction) {
    double moment = 0.0;
    for (const MassPoint& mass : masses)
        moment += gravity_m_s2 * mass.mass_kg * glm::dot(mass.position_m - pivot_m, direction);
    return moment;
}

double balancing_mass_kg(double moment_nm, double lever_m) {
    return lever_m > 1e-6 ? std::max(0.0, moment_nm / (gravity_m_s2 * lever_m)) : 0.0;
}

Knuckle knuckle_of(double balance_nm, bool knob_on_right, double noticeable_nm) {
    if (std::abs(balance_nm) < noticeable_nm) return Knuckle::none;
    return (balance_nm > 0.0) == knob_on_right ? Knuckle::tightens : Knuckle::loosens;
}

double counterweight_place_m(const Support& support) {
    const Arm& arm = *support.arm;
    if (arm.counterweight) return arm.counterweight->place_m;
    const bool takes_one = support.kind == SupportKind::boom && arm.tail_m() >= shortest_tail_m;
    return takes_one ? arm.tail_m() : 0.0;
}

Joints assess_joints(const Light& light, const SupportPose& pose) {
    Joints joints;
    if (!light.support.arm) return joints;
    const Arm& arm = *light.support.arm;
    const double azimuth_deg = light.support.base.turn_deg + arm.turn_deg;
    const Vec3 outward = direction_from({azimuth_deg, 0.0});
    const Vec3 sideways = direction_from({azimuth_deg + 90.0, 0.0});

    const std::vector<MassPoint> all = swinging(pose, true);
    joints.balance_nm = moment_nm(all, pose.column_top_m, outward);
    joints.twist_nm = moment_nm(all, pose.column_top_m, sideways);
    joints.grip_torque_nm = std::hypot(joints.balance_nm, joints.twist_nm);
    joints.knuckle = knuckle_of(joints.balance_nm, arm.knob_on_right);
    joints.counterweight_needed_kg =
        balancing_mass_kg(moment_nm(swinging(pose, false), pose.column_top_m, outward),
                          counterweight_place_m(light.support) * std::cos(radians(arm.rise_deg)));
    const Modifier& modifier = light.modifier;
    joints.tip_load_kg =
        light.head.mass_kg + modifier.mass_kg + (modifier.grid ? modifier.grid->mass_kg : 0.0);
    return joints;
}

} // namespace keystead
