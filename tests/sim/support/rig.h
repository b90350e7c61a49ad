// Short ways to write a support in a test. Kept out of line: GCC 12 reports members of an optional
// gear struct falsely as uninitialised where it can see all of it (GCC bug 80635).
#pragma once

#include "sim/support/pose.h"
#include "sim/support/stability.h"

namespace rig {

keystead::Bag bag(double mass_kg, keystead::BagPlace place = keystead::BagPlace::leg, int leg = 0,
                  double at_m = 0.30, bool hanging = true);

keystead::Counterweight counterweight(double mass_kg, double place_m);

keystead::AimTarget at(const keystead::Vec3& point_m, double feather_deg = 0.0);

keystead::MassPoint mass(double mass_kg, const keystead::Vec3& position_m, bool load = false);

/// A plain rod, level, over leg 0; no mass of its own unless given.
void add_arm(keystead::Light& light, double reach_m, double length_m, double mass_kg = 0.0,
             double rise_deg = 0.0, double turn_deg = 0.0);

keystead::Stability assess_at(const keystead::Light& light, const keystead::Vec3& target_m,
                              const keystead::StabilityLimits& limits = {});

} // namespace rig
