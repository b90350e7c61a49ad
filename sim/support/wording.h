// A stability result as sentences a colleague would say.
#pragma once

#include "sim/support/stability.h"

#include <string>
#include <vector>

namespace keystead {

/// "toward the subject", "toward the camera", "toward camera right" … for a fall from `from_m`
/// (plan). The subject stands at the origin and comes first.
std::string toward_words(double azimuth_deg, const Vec2& from_m);

/// Why it tips, or could: worst first; empty when tilt and push are out of caution. A bag lying on
/// the floor is mentioned here, where it was meant to help.
std::vector<std::string> tipping_reasons(const Stability& result, const Support& support,
                                         const StabilityLimits& limits);

/// What rating, arm or clamp object to; empty when nothing does.
std::vector<std::string> joint_reasons(const Stability& result, const StabilityLimits& limits);

} // namespace keystead
