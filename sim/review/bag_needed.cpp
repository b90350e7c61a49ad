#include "sim/review/bag_needed.h"

#include <cmath>

namespace keystead {

bool needs_counterweight(const Light& light, const Stability& stability) {
    if (!light.support.arm || stability.counterweight_needed_kg <= 0.0) return false;
    const double there =
        light.support.arm->counterweight ? light.support.arm->counterweight->mass_kg : 0.0;
    return stability.counterweight_needed_kg > 1.1 * there + 0.2;
}

BagNeeded bag_needed(const Light& light, const AimTarget& aim, const StabilityLimits& limits,
                     const Stability& stability) {
    const double place_m = counterweight_place_m(light.support);
    if (!needs_counterweight(light, stability) || place_m <= 0.0)
        return {stability.bag_least, false};
    Light balanced = light;
    Counterweight weight = balanced.support.arm->counterweight.value_or(Counterweight{});
    // As the report prints it: rounded up.
    weight.mass_kg = std::ceil(stability.counterweight_needed_kg * 100.0) / 100.0;
    weight.place_m = place_m;
    balanced.support.arm->counterweight = weight;
    return {assess(balanced, pose_support(balanced, aim), limits).bag_least, true};
}

} // namespace keystead
