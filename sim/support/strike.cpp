#include "sim/support/strike.h"

#include "sim/support/bad_end.h"

#include <algorithm>
#include <limits>

namespace keystead {

namespace {

bool belongs_to(const std::string& part, const std::string& taken_off) {
    if (taken_off == "light") return part == "head" || part == "modifier" || part == "grid";
    return part == taken_off;
}

StrikeStep step_without(const std::vector<MassPoint>& masses, const std::vector<PolygonEdge>& edges,
                        const std::string& taken_off, double uncertainty,
                        const StabilityLimits& limits) {
    constexpr double no_push = std::numeric_limits<double>::infinity();
    const std::vector<MassPoint> left = without(masses, taken_off);
    StrikeStep step;
    step.taken_off = taken_off;
    const BadEnd nominal = bad_end(left, edges, 1.0, 0.0);
    const BadEnd worst = bad_end(left, edges, 1.0, uncertainty);
    step.margin_m = nominal.margin_m;
    step.tip_angle_deg = nominal.tilt_deg;
    step.verdict = tipping_verdict(worst.margin_m, worst.tilt_deg, no_push, limits);
    return step;
}

} // namespace

std::vector<MassPoint> without(const std::vector<MassPoint>& masses, const std::string& taken_off) {
    std::vector<MassPoint> left;
    for (const MassPoint& mass : masses)
        if (!belongs_to(mass.part, taken_off)) left.push_back(mass);
    return left;
}

std::vector<StrikeStep> strike_steps(const std::vector<MassPoint>& masses,
                                     const std::vector<PolygonEdge>& edges, double uncertainty,
                                     const StabilityLimits& limits) {
    std::vector<StrikeStep> steps;
    for (const char* taken_off : {"counterweight", "light"}) {
        const bool fitted = std::any_of(masses.begin(), masses.end(), [&](const MassPoint& mass) {
            return mass.mass_kg > 0.0 && belongs_to(mass.part, taken_off);
        });
        if (fitted) steps.push_back(step_without(masses, edges, taken_off, uncertainty, limits));
    }
    return steps;
}

} // namespace keystead
