#include "sim/support/advice.h"

#include "sim/support/wording.h"

namespace keystead {

namespace {

double own_mass_kg(const Support& support) {
    return support.base.mass_kg + support.column.mass_kg;
}

bool could_take_its_place(const Support& candidate, const Support& present) {
    const double height_m = present.column.height_m;
    if (height_m < candidate.column.min_height_m || height_m > candidate.column.max_height_m)
        return false;
    if (candidate.kind == SupportKind::boom && present.kind != SupportKind::boom) return false;
    for (const Bag& bag : present.bags)
        if (bag.place == BagPlace::leg && bag.leg >= candidate.base.legs) return false;
    return own_mass_kg(candidate) > own_mass_kg(present);
}

/// The bag that makes it stand, if it is one a person carries and the load is within its ratings.
std::optional<Ballast> bag_that_settles(const Stability& stability, const StabilityLimits& limits) {
    const Ballast& bag = stability.bag_least;
    if (!joint_reasons(stability, limits).empty() || bag.place.empty()) return std::nullopt;
    if (bag.mass_kg > handy_bag_kg) return std::nullopt;
    return bag;
}

} // namespace

Light moved_to(const Light& light, const Support& candidate) {
    Light moved = light;
    Support& support = moved.support;
    support.base = candidate.base;
    support.base.position_m = light.support.base.position_m;
    support.base.turn_deg = light.support.base.turn_deg;
    support.column = candidate.column;
    support.column.height_m = light.support.column.height_m;
    support.kind = candidate.kind;
    support.load_limit_kg = candidate.load_limit_kg;
    return moved;
}

std::optional<NextSupport> next_support_up(const Light& light, const AimTarget& target,
                                           const StabilityLimits& limits, const Catalogue& gear) {
    std::optional<NextSupport> next;
    double lightest_kg = 0.0;
    for (const CatalogueEntry<Support>& entry : gear.supports) {
        if (!could_take_its_place(entry.value, light.support)) continue;
        if (next && own_mass_kg(entry.value) >= lightest_kg) continue;
        const Light moved = moved_to(light, entry.value);
        const auto bag =
            bag_that_settles(assess(moved, pose_support(moved, target), limits), limits);
        if (!bag) continue;
        next = NextSupport{entry.id, *bag};
        lightest_kg = own_mass_kg(entry.value);
    }
    return next;
}

} // namespace keystead
