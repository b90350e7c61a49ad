// What a support needs to stand: a counterweight where its arm wants one, and the bag beside it.
#pragma once

#include "sim/support/stability.h"

namespace keystead {

/// The bag that is needed. Where the arm wants a counterweight, it is the bag needed once that
/// hangs in its place: both together are the answer, since a bag alone leaves the clamp overloaded.
struct BagNeeded {
    Ballast bag;
    bool after_counterweight = false;
};

/// Does the arm want noticeably more counterweight than it has?
bool needs_counterweight(const Light& light, const Stability& stability);

/// `aim`: where the light looks, as it was posed.
BagNeeded bag_needed(const Light& light, const AimTarget& aim, const StabilityLimits& limits,
                     const Stability& stability);

} // namespace keystead
