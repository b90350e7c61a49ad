// Taking a set down: what stands, and what falls, when one part has come off.
#pragma once

#include "sim/support/tipping.h"

#include <string>
#include <vector>

namespace keystead {

/// One state while striking the set: what happens when a part is taken off.
struct StrikeStep {
    std::string taken_off; ///< "counterweight", "light"
    double margin_m = 0.0;
    double tip_angle_deg = 0.0;
    Verdict verdict = Verdict::stable;
};

/// The masses left when the counterweight, or the light (head, modifier and grid), is off.
std::vector<MassPoint> without(const std::vector<MassPoint>& masses, const std::string& taken_off);

/// Each part taken off alone from the whole: a counterweight first, where there is one, then the
/// light. Figures are nominal, the verdict is taken at the bad end of the masses and of tilt alone:
/// nobody asks an empty stand to resist a push at the height of a light it no longer carries.
/// `edges` are those of the whole support.
std::vector<StrikeStep> strike_steps(const std::vector<MassPoint>& masses,
                                     const std::vector<PolygonEdge>& edges, double uncertainty,
                                     const StabilityLimits& limits);

} // namespace keystead
