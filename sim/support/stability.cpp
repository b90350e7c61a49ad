#include "sim/support/stability.h"

#include "sim/support/bad_end.h"
#include "sim/support/foot_loads.h"
#include "sim/support/wording.h"

#include <algorithm>

namespace keystead {

namespace {

constexpr double lowest_push_m = 0.05;

std::vector<Vec2> feet_in_plan(const SupportPose& pose) {
    std::vector<Vec2> feet_m;
    for (const Vec3& foot : pose.feet_m) feet_m.push_back(plan(foot));
    return feet_m;
}

void weigh(Stability& result, const SupportPose& pose) {
    const MassSum sum = sum_masses(pose.masses);
    result.mass_kg = sum.mass_kg;
    result.com_m = sum.com_m;
    result.foot_loads_n =
        foot_loads_n(sum.mass_kg * gravity_m_s2, plan(sum.com_m), feet_in_plan(pose));
}

void stand_on_feet(Stability& result, const Base& base, const SupportPose& pose) {
    const double inset_m = base.wheels ? base.caster_offset_m : 0.0;
    result.edges = polygon_edges(convex_hull(feet_in_plan(pose)), inset_m, plan(result.com_m));
    for (const PolygonEdge& edge : result.edges) result.polygon_m.push_back(edge.from_m);
    result.weakest_edge = std::max(weakest_edge(result.edges), 0);
}

void tip(Stability& result, const Base& base, const SupportPose& pose) {
    if (result.edges.empty()) return;
    const PolygonEdge& edge = result.edges[static_cast<std::size_t>(result.weakest_edge)];
    result.margin_m = edge.distance_m;
    result.tip_direction_deg = edge.outward_deg;
    result.tip_angle_deg = tilt_to_tip_deg(edge.distance_m, result.com_m.y);
    result.push_to_tip_n = push_to_tip_n(result.mass_kg, edge.distance_m, result.push_height_m);
    result.overturning_factor = overturning_factor(pose.masses, edge);
    if (base.wheels) result.snag_speed_m_s = snag_speed_m_s(edge.distance_m, result.com_m.y);
}

void take_bad_end(Stability& result, const SupportPose& pose, double uncertainty) {
    const BadEnd worst = bad_end(pose.masses, result.edges, result.push_height_m, uncertainty);
    result.worst_margin_m = worst.margin_m;
    result.worst_tip_angle_deg = worst.tilt_deg;
    result.worst_push_n = worst.push_n;
}

void load_against_ratings(Stability& result, const Support& support, const SupportPose& pose) {
    for (const MassPoint& mass : pose.masses)
        if (mass.load) result.load_kg += mass.mass_kg;
    result.load_limit_kg = support.load_limit_kg;
    if (!support.arm) return;
    result.tip_load_limit_kg = support.arm->load_limit_kg;
    result.grip_limit_nm = support.arm->grip_limit_nm;
}

void hold_joints(Stability& result, const Light& light, const SupportPose& pose) {
    const Joints joints = assess_joints(light, pose);
    result.balance_nm = joints.balance_nm;
    result.twist_nm = joints.twist_nm;
    result.grip_torque_nm = joints.grip_torque_nm;
    result.tip_load_kg = joints.tip_load_kg;
    result.counterweight_needed_kg = joints.counterweight_needed_kg;
    result.knuckle = joints.knuckle;
}

void ballast(Stability& result, const Light& light, const SupportPose& pose,
             const StabilityLimits& limits) {
    const auto demands = demands_of(result.edges, result.push_height_m, limits);
    result.bag_least = least_ballast(light, pose, demands, limits);
    result.bag_split = split_ballast(result.bag_least, light, pose, demands, limits);
    result.bag_there = ballast_at(spot_there(light.support), light, pose, demands, limits);
}

} // namespace

Stability assess(const Light& light, const SupportPose& pose, const StabilityLimits& limits) {
    const double uncertainty = mass_uncertainty(light.support, limits);
    Stability result;
    result.push_height_m = std::max(pose.tip_m.y, lowest_push_m);
    weigh(result, pose);
    stand_on_feet(result, light.support.base, pose);
    tip(result, light.support.base, pose);
    take_bad_end(result, pose, uncertainty);
    load_against_ratings(result, light.support, pose);
    hold_joints(result, light, pose);
    ballast(result, light, pose, limits);
    result.strike = strike_steps(pose.masses, result.edges, uncertainty, limits);
    result.reasons = joint_reasons(result, limits);
    result.verdict = tipping_verdict(result.worst_margin_m, result.worst_tip_angle_deg,
                                     result.worst_push_n, limits);
    if (result.verdict == Verdict::stable && !result.reasons.empty())
        result.verdict = Verdict::caution;
    const auto tipping = tipping_reasons(result, light.support, limits);
    result.reasons.insert(result.reasons.begin(), tipping.begin(), tipping.end());
    return result;
}

} // namespace keystead
