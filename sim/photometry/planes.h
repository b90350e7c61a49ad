// From the planes a file stores to the whole turn of them.
#pragma once

#include "sim/base/result.h"
#include "sim/photometry/distribution.h"

namespace keystead::photometry {

/// Strictly increasing; `what` names the list in the message, `found` is empty if it is.
Outcome rising(const std::vector<double>& angles_deg, const std::string& what,
               const std::string& file);

/// Type C planes from a quarter, a half (either way) or a whole turn to 0..360 with both ends. A
/// turn that stops one step short of 360 is closed. Anything else is a problem.
Outcome complete_turn(Distribution& distribution, const std::string& file);

/// Types A and B that store 0..90 of either angle are mirrored to -90..90.
void complete_halves(Distribution& distribution);

} // namespace keystead::photometry
