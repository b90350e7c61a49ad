#include "sim/support/bad_end.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace keystead {

namespace {

struct Fraction {
    double over = 0.0, under = 0.0;
    double value() const { return over / under; }
};

/// Sums m·d over m·w with each mass at the end that lowers over - q·under.
template <class Weight>
Fraction mixed(const std::vector<Lever>& levers, double uncertainty, double q, Weight weight) {
    Fraction sum;
    for (const Lever& lever : levers) {
        const bool heavy_is_worse = lever.distance_m - q * weight(lever) < 0.0;
        const double mass_kg =
            lever.mass_kg * (heavy_is_worse ? 1.0 + uncertainty : 1.0 - uncertainty);
        sum.over += mass_kg * lever.distance_m;
        sum.under += mass_kg * weight(lever);
    }
    return sum;
}

template <class Weight>
Fraction least_fraction(const std::vector<Lever>& levers, double uncertainty, Weight weight) {
    Fraction best;
    for (const Lever& lever : levers) {
        best.over += lever.mass_kg * lever.distance_m;
        best.under += lever.mass_kg * weight(lever);
    }
    // Each round fixes the mixture for the ratio so far; it settles in a handful of rounds.
    for (int round = 0; round < 50 && best.under > 0.0; ++round) {
        const Fraction next = mixed(levers, uncertainty, best.value(), weight);
        if (next.under <= 0.0 || next.value() >= best.value()) break;
        best = next;
    }
    return best;
}

} // namespace

std::vector<Lever> levers_about(const std::vector<MassPoint>& masses, const PolygonEdge& edge) {
    std::vector<Lever> levers;
    levers.reserve(masses.size());
    for (const MassPoint& mass : masses)
        levers.push_back({mass.mass_kg, distance_inside_m(edge, plan(mass.position_m)),
                          std::max(mass.position_m.y, 0.0)});
    return levers;
}

double least_margin_m(const std::vector<Lever>& levers, double uncertainty) {
    const Fraction worst = least_fraction(levers, uncertainty, [](const Lever&) { return 1.0; });
    return worst.under > 0.0 ? worst.value() : 0.0;
}

double least_tilt_deg(const std::vector<Lever>& levers, double uncertainty) {
    const Fraction worst =
        least_fraction(levers, uncertainty, [](const Lever& lever) { return lever.height_m; });
    return tilt_to_tip_deg(worst.over, worst.under);
}

double least_push_n(const std::vector<Lever>& levers, double push_height_m, double uncertainty) {
    double moment_kg_m = 0.0;
    for (const Lever& lever : levers)
        moment_kg_m +=
            lever.mass_kg * (lever.distance_m - uncertainty * std::abs(lever.distance_m));
    return push_to_tip_n(1.0, moment_kg_m, push_height_m);
}

BadEnd bad_end(const std::vector<MassPoint>& masses, const std::vector<PolygonEdge>& edges,
               double push_height_m, double uncertainty) {
    if (edges.empty()) return {};
    constexpr double none = std::numeric_limits<double>::infinity();
    BadEnd worst{none, none, none};
    for (const PolygonEdge& edge : edges) {
        const std::vector<Lever> levers = levers_about(masses, edge);
        worst.margin_m = std::min(worst.margin_m, least_margin_m(levers, uncertainty));
        worst.tilt_deg = std::min(worst.tilt_deg, least_tilt_deg(levers, uncertainty));
        worst.push_n = std::min(worst.push_n, least_push_n(levers, push_height_m, uncertainty));
    }
    return worst;
}

} // namespace keystead
