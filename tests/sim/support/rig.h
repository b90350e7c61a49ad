// Short ways to write a support in a test.
#pragma once

#include "sim/support/pose.h"

namespace rig {

inline keystead::Bag bag(double mass_kg, keystead::BagPlace place = keystead::BagPlace::leg,
                         int leg = 0, double at_m = 0.30, bool hanging = true) {
    keystead::Bag made;
    made.mass_kg = mass_kg;
    made.place = place;
    made.leg = leg;
    made.at_m = at_m;
    made.hanging = hanging;
    return made;
}

inline keystead::Counterweight counterweight(double mass_kg, double place_m) {
    keystead::Counterweight made;
    made.mass_kg = mass_kg;
    made.place_m = place_m;
    return made;
}

inline keystead::AimTarget at(const keystead::Vec3& point_m, double feather_deg = 0.0) {
    keystead::AimTarget target;
    target.point_m = point_m;
    target.feather_deg = feather_deg;
    return target;
}

inline keystead::MassPoint mass(double mass_kg, const keystead::Vec3& position_m,
                                bool load = false) {
    return {"part", mass_kg, position_m, load};
}

} // namespace rig
