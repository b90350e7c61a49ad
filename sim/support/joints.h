// What the arm's clamp must hold, and what would balance it: moments about the arm's pivot.
// Balance about the pivot says nothing about balance over the feet; see tipping.h for that.
#pragma once

#include "sim/support/pose.h"

#include <vector>

namespace keystead {

/// Which way gravity turns the clamp's knob.
///
/// Convention: the operator stands behind the tail and looks along the arm. With the knob on the
/// right, a heavy tip turns the arm clockwise as seen from the knob, and a clamp tightens
/// clockwise (right-hand thread, common practice: "knuckles on the right"). A knob on the left, or
/// a heavy tail, reverses it; both together tighten again.
enum class Knuckle { tightens, loosens, none };

/// Shorter tails are only the clamp's grip on the rod: nothing hangs there.
inline constexpr double shortest_tail_m = 0.20;

struct Joints {
    double balance_nm = 0.0;     ///< about the pivot, in the arm's upright plane; + = tip goes down
    double twist_nm = 0.0;       ///< about the arm's own line: the light hanging to one side
    double grip_torque_nm = 0.0; ///< both together, what the clamp holds by friction
    double tip_load_kg = 0.0;    ///< on the arm's tip
    double counterweight_needed_kg = 0.0; ///< in all, at its place, to balance the arm
    Knuckle knuckle = Knuckle::none;
};

/// Moment of weights about a pivot along a horizontal unit direction: g sum(m r·d).
double moment_nm(const std::vector<MassPoint>& masses, const Vec3& pivot_m, const Vec3& direction);

/// Mass that balances `moment_nm` from `lever_m` behind the pivot; 0 if the tail is heavy already.
double balancing_mass_kg(double moment_nm, double lever_m);

/// See Knuckle. Below `noticeable_nm` gravity decides nothing.
Knuckle knuckle_of(double balance_nm, bool knob_on_right, double noticeable_nm = 0.5);

/// Where a counterweight would sit behind the pivot: its own place, else the tail's end of a boom
/// stand whose tail is long enough to take one. 0 if there is no such place: a plain grip arm is
/// held by its clamp alone. `support` has an arm.
double counterweight_place_m(const Support& support);

/// All zero without an arm.
Joints assess_joints(const Light& light, const SupportPose& pose);

} // namespace keystead
