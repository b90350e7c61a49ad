#include "sim/support/rig.h"

namespace rig {

using namespace keystead;

Bag bag(double mass_kg, BagPlace place, int leg, double at_m, bool hanging) {
    Bag made;
    made.mass_kg = mass_kg;
    made.place = place;
    made.leg = leg;
    made.at_m = at_m;
    made.hanging = hanging;
    return made;
}

Counterweight counterweight(double mass_kg, double place_m) {
    Counterweight made;
    made.mass_kg = mass_kg;
    made.place_m = place_m;
    return made;
}

AimTarget at(const Vec3& point_m, double feather_deg) {
    AimTarget target;
    target.point_m = point_m;
    target.feather_deg = feather_deg;
    return target;
}

MassPoint mass(double mass_kg, const Vec3& position_m, bool load) {
    return {"part", mass_kg, position_m, load};
}

void add_arm(Light& light, double reach_m, double length_m, double mass_kg, double rise_deg,
             double turn_deg) {
    Arm arm;
    arm.reach_m = reach_m;
    arm.length_m = length_m;
    arm.mass_kg = mass_kg;
    arm.clamp_mass_kg = 0.0;
    arm.rise_deg = rise_deg;
    arm.turn_deg = turn_deg;
    light.support.arm = arm;
}

Stability assess_at(const Light& light, const Vec3& target_m, const StabilityLimits& limits) {
    return assess(light, pose_support(light, at(target_m)), limits);
}

} // namespace rig
