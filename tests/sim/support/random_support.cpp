#include "sim/support/random_support.h"

#include "sim/support/rig.h"

namespace rig {

using namespace keystead;

namespace {

bool chance(std::mt19937& random, double probability) {
    return between(random, 0.0, 1.0) < probability;
}

int whole(std::mt19937& random, int low, int high) {
    return low + static_cast<int>(between(random, 0.0, high - low + 1.0 - 1e-9));
}

void give_arm(std::mt19937& random, Light& light) {
    const double reach_m = between(random, 0.3, 1.2);
    add_arm(light, reach_m, reach_m + between(random, 0.0, 0.8), between(random, 0.8, 2.0),
            between(random, -30.0, 60.0), between(random, -180.0, 180.0));
    Arm& arm = *light.support.arm;
    arm.clamp_mass_kg = 0.75;
    arm.knob_on_right = chance(random, 0.7);
    if (arm.tail_m() > 0.3 && chance(random, 0.5))
        arm.counterweight =
            counterweight(between(random, 1.0, 6.0), between(random, 0.2, arm.tail_m()));
}

} // namespace

double between(std::mt19937& random, double low, double high) {
    return low + (high - low) * (static_cast<double>(random()) / 4294967296.0);
}

RandomLight random_light(std::mt19937& random) {
    RandomLight rig;
    Light& light = rig.light;
    Base& base = light.support.base;
    base.position_m = {between(random, -2.0, 2.0), between(random, -2.0, 2.0)};
    base.turn_deg = between(random, -180.0, 180.0);
    base.legs = whole(random, 3, 5);
    base.foot_radius_m = between(random, 0.35, 0.65);
    base.mass_kg = between(random, 2.0, 12.0);
    base.hub_height_m = between(random, 0.15, 0.45);
    light.support.column.height_m = between(random, 1.0, 2.8);
    light.support.column.mass_kg = between(random, 1.0, 3.0);
    light.head.mass_kg = between(random, 1.5, 3.2);
    light.modifier.mass_kg = between(random, 0.3, 2.5);
    light.modifier.com_ahead_m = between(random, 0.1, 0.4);
    if (chance(random, 0.6)) give_arm(random, light);
    for (int i = whole(random, 0, 2); i > 0; --i)
        light.support.bags.push_back(
            bag(between(random, 4.0, 12.0), chance(random, 0.4) ? BagPlace::column : BagPlace::leg,
                whole(random, 0, base.legs - 1), between(random, 0.1, 0.3), chance(random, 0.8)));
    rig.target_m = {between(random, -0.2, 0.2), between(random, 1.2, 1.7),
                    between(random, -0.2, 0.2)};
    return rig;
}

RandomLight with_ballast(RandomLight rig, const Ballast& ballast, double share) {
    const bool split = ballast.second_leg >= 0;
    const double each_kg = ballast.mass_kg * share * (split ? 0.5 : 1.0);
    const BagPlace place = ballast.leg >= 0     ? BagPlace::leg
                           : ballast.at_m > 0.0 ? BagPlace::tail
                                                : BagPlace::column;
    rig.light.support.bags.push_back(bag(each_kg, place, std::max(ballast.leg, 0), ballast.at_m));
    if (split)
        rig.light.support.bags.push_back(bag(each_kg, place, ballast.second_leg, ballast.at_m));
    return rig;
}

} // namespace rig
