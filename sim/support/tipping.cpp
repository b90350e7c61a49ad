#include "sim/support/tipping.h"

#include <algorithm>
#include <cmath>

namespace keystead {

MassSum sum_masses(const std::vector<MassPoint>& masses) {
    MassSum sum;
    for (const MassPoint& mass : masses) {
        sum.mass_kg += mass.mass_kg;
        sum.com_m += mass.mass_kg * mass.position_m;
    }
    if (sum.mass_kg > 0.0) sum.com_m /= sum.mass_kg;
    return sum;
}

double tilt_to_tip_deg(double distance_m, double height_m) {
    return degrees(std::atan2(distance_m, std::max(height_m, 0.0)));
}

double required_ratio(double tilt_deg) {
    return std::tan(radians(tilt_deg));
}

double highest_com_m(double distance_m, double tilt_deg) {
    return distance_m / required_ratio(tilt_deg);
}

double push_to_tip_n(double mass_kg, double distance_m, double push_height_m) {
    return std::max(0.0, mass_kg * gravity_m_s2 * distance_m / push_height_m);
}

double rise_to_tip_m(double distance_m, double height_m) {
    return distance_m > 0.0 ? std::hypot(distance_m, height_m) - height_m : 0.0;
}

double snag_speed_m_s(double distance_m, double height_m) {
    return std::sqrt(2.0 * gravity_m_s2 * rise_to_tip_m(distance_m, height_m));
}

double snag_speed_rigid_m_s(double distance_m, double height_m, double inertia_per_mass_m2) {
    const double about_edge_m2 =
        inertia_per_mass_m2 + height_m * height_m + distance_m * distance_m;
    return snag_speed_m_s(distance_m, height_m) * std::sqrt(about_edge_m2) / height_m;
}

std::optional<double> overturning_factor(const std::vector<MassPoint>& masses,
                                         const PolygonEdge& edge) {
    double holding_kg_m = 0.0, turning_kg_m = 0.0;
    for (const MassPoint& mass : masses) {
        const double moment = mass.mass_kg * distance_inside_m(edge, plan(mass.position_m));
        (moment > 0.0 ? holding_kg_m : turning_kg_m) += std::abs(moment);
    }
    if (turning_kg_m <= 0.0) return std::nullopt;
    return holding_kg_m / turning_kg_m;
}

Verdict tipping_verdict(double margin_m, double tilt_deg, double push_n,
                        const StabilityLimits& limits) {
    if (margin_m <= 0.0 || tilt_deg < limits.unstable_tilt_deg) return Verdict::unstable;
    if (tilt_deg < limits.caution_tilt_deg || push_n < limits.caution_push_n)
        return Verdict::caution;
    return Verdict::stable;
}

} // namespace keystead
