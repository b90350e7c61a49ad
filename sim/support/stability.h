// Does it stand: closed-form statics of one support, with every intermediate value.
#pragma once

#include "sim/support/pose.h"

#include <optional>
#include <string>
#include <vector>

namespace keystead {

enum class Verdict { stable, caution, unstable };
enum class Knuckle { tightens, loosens, none };

/// One edge of the support polygon.
struct PolygonEdge {
    Vec2 from_m{0.0}, to_m{0.0}; ///< x, z
    double distance_m = 0.0;     ///< of the centre of mass, positive inside
    double outward_deg = 0.0;    ///< azimuth of its outward normal
};

/// What a bag or a counterweight would have to be.
struct Ballast {
    double mass_kg = 0.0; ///< extra mass needed; 0 when none is
    std::string place;    ///< "leg 2", "column", "tail"; empty when no place can do it
    int leg = -1;
    double at_m = 0.0;
};

/// One state while striking the set: what happens when a part is taken off.
struct StrikeStep {
    std::string taken_off; ///< "counterweight", "light"
    double margin_m = 0.0;
    double tip_angle_deg = 0.0;
    Verdict verdict = Verdict::stable;
};

struct Stability {
    Verdict verdict = Verdict::stable;
    std::vector<std::string> reasons; ///< one sentence each, worst first; empty when stable
    double mass_kg = 0.0;
    Vec3 com_m{0.0};
    std::vector<Vec2> polygon_m; ///< support polygon, counter-clockwise seen from above
    std::vector<PolygonEdge> edges;
    int weakest_edge = 0;
    double margin_m = 0.0;          ///< signed distance to the weakest edge
    double tip_angle_deg = 0.0;     ///< tilt of the floor that tips it; negative when outside
    double tip_direction_deg = 0.0; ///< azimuth it falls to
    double push_height_m = 0.0;     ///< height of the load
    double push_to_tip_n = 0.0;
    double snag_speed_m_s = 0.0; ///< wheels: rolling speed that tips it at an obstacle; else 0
    double load_kg = 0.0;
    double load_limit_kg = 0.0;
    std::vector<double>
        foot_loads_n;        ///< in leg order; least-squares rigid for more than three legs
    double balance_nm = 0.0; ///< moment about the arm's pivot, positive = tip goes down
    double counterweight_needed_kg = 0.0; ///< total at its place to balance the arm
    double grip_torque_nm = 0.0;          ///< what the clamp must hold by friction
    double grip_limit_nm = 0.0;
    Knuckle knuckle = Knuckle::none;
    Ballast bag_least;           ///< the place that needs least
    Ballast bag_there;           ///< at the place the set already uses (or the default place)
    double worst_margin_m = 0.0; ///< with masses at the bad end of their uncertainty
    double worst_tip_angle_deg = 0.0;
    std::vector<StrikeStep> strike;
};

/// All of the above for one light's support.
Stability assess(const Light& light, const SupportPose& pose, const StabilityLimits& limits);

} // namespace keystead
