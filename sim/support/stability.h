// Does it stand: closed-form statics of one support, with every intermediate value.
//
// Rigid support, level rigid floor, feet that do not slip, nothing moving: no wind, no cables under
// pull, no sag of arm or column, no play in the joints. Printed figures are nominal; the verdict
// takes the masses at the bad end of their uncertainty. The limits are settings of the set.
#pragma once

#include "sim/support/ballast.h"
#include "sim/support/hull.h"
#include "sim/support/joints.h"
#include "sim/support/pose.h"
#include "sim/support/strike.h"
#include "sim/support/tipping.h"

#include <optional>
#include <string>
#include <vector>

namespace keystead {

struct Stability {
    Verdict verdict = Verdict::stable;
    std::vector<std::string> reasons; ///< one sentence each, worst first; empty when stable
    double mass_kg = 0.0;
    Vec3 com_m{0.0};
    /// Support polygon, counter-clockwise seen from above. Wheels: what every caster swing leaves.
    std::vector<Vec2> polygon_m;
    std::vector<PolygonEdge> edges;
    int weakest_edge = 0;
    double margin_m = 0.0;          ///< signed distance to the weakest edge
    double tip_angle_deg = 0.0;     ///< tilt of the floor that tips it; negative when outside
    double tip_direction_deg = 0.0; ///< azimuth it falls to
    double push_height_m = 0.0;     ///< height of the load (the light's bracket)
    double push_to_tip_n = 0.0;
    double snag_speed_m_s = 0.0; ///< wheels: rolling speed that tips it at an obstacle; else 0
    /// Holding over overturning moments about the weakest edge; empty when nothing overturns.
    /// 1.5 is common engineering practice.
    std::optional<double> overturning_factor;
    double load_kg = 0.0; ///< light, arm, clamp, counterweight, bags on the tail
    double load_limit_kg = 0.0;
    double tip_load_kg = 0.0; ///< on the arm's tip; 0 without an arm
    double tip_load_limit_kg = 0.0;
    std::vector<double>
        foot_loads_n;        ///< in leg order; least-squares rigid for more than three legs
    double balance_nm = 0.0; ///< moment about the arm's pivot, positive = tip goes down
    double twist_nm = 0.0;   ///< moment about the arm's own line
    double counterweight_needed_kg = 0.0; ///< total at its place to balance the arm
    double grip_torque_nm = 0.0;          ///< what the clamp must hold by friction
    double grip_limit_nm = 0.0;
    Knuckle knuckle = Knuckle::none;
    Ballast bag_least; ///< the place that needs least
    Ballast bag_split; ///< halves on two legs where that needs clearly less; else no place
    Ballast bag_there; ///< at the place the set already uses (or the default place)
    double worst_margin_m = 0.0; ///< with masses at the bad end of their uncertainty
    double worst_tip_angle_deg = 0.0;
    double worst_push_n = 0.0;
    std::vector<StrikeStep> strike;
};

/// All of the above for one light's support.
///
/// Wheels: a caster may have swung any way, so each contact is somewhere on a circle of
/// `caster_offset_m` about its pivot. Over one edge the worst is that its two wheels point inward,
/// square to it, and no other wheel can then stand further out: the reach of the contacts in a
/// direction n is max(pivot·n) - offset. So every edge moves inward by the offset, each taken at
/// its own worst swing.
///
/// Loads on the feet are those of the wheels' pivots. The mass uncertainty is applied to tipping;
/// ratings and clamp keep a share of their limit in reserve instead.
Stability assess(const Light& light, const SupportPose& pose, const StabilityLimits& limits);

} // namespace keystead
