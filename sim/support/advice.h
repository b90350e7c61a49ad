// Which support of the catalogue would hold a light that the present one does not.
#pragma once

#include "sim/set/catalogue.h"
#include "sim/support/stability.h"

#include <optional>
#include <string>

namespace keystead {

/// The heaviest bag one person hangs without a second thought (35 lb is the largest common size).
inline constexpr double handy_bag_kg = 16.0;

struct NextSupport {
    std::string id; ///< of the catalogue's entry
    Ballast bag;    ///< extra bag it wants, at the place that needs least; mass 0 if none
};

/// The same light held at the same place by another support: base, column and rating are the
/// candidate's; place, turn, height, arm and bags stay. An arm of the candidate's own is left out.
Light moved_to(const Light& light, const Support& candidate);

/// The next support up: the lightest one heavier than the present, by base and column, that reaches
/// the height, has nothing against its load, and stands out of caution with at most one handy bag
/// more. Boom stands are offered only in place of a boom stand. Empty if there is none.
std::optional<NextSupport> next_support_up(const Light& light, const AimTarget& target,
                                           const StabilityLimits& limits, const Catalogue& gear);

} // namespace keystead
