#include "sim/light/beam.h"

#include "sim/light/emission_text.h"

#include <algorithm>
#include <cmath>

namespace keystead {

namespace {

/// ∫ profile · cos^power θ dω over the hemisphere.
double profile_integral(const Beam& beam, int power) {
    // With c = cosθ: 2 pi ∫ c^(n-1+power) dc, in closed form where the cut-off does not bite.
    const double n = beam.exponent - 1.0 + power + 1.0;
    const bool cut = beam.cutoff_half_deg < 90.0;
    const double outer = radians(beam.cutoff_half_deg);
    const double inner =
        cut ? std::max(0.0, outer - radians(std::max(beam.cutoff_edge_deg, 1e-3))) : 0.5 * pi;
    double sum = (1.0 - (cut ? std::pow(std::cos(inner), n) : 0.0)) / n;
    if (!cut) return 2.0 * pi * sum;
    // Simpson's rule over the soft edge.
    constexpr int steps = 400;
    const double h = (outer - inner) / steps;
    for (int i = 0; i <= steps; ++i) {
        const double angle = inner + i * h;
        const double value = emission::within_cutoff(outer, radians(beam.cutoff_edge_deg), angle) *
                             emission::gathering(beam.exponent, std::cos(angle)) *
                             std::pow(std::max(0.0, std::cos(angle)), power) * std::sin(angle);
        sum += (i == 0 || i == steps ? 1.0 : i % 2 == 1 ? 4.0 : 2.0) * value * h / 3.0;
    }
    return 2.0 * pi * sum;
}

} // namespace

double flat_gain(const Beam& beam) {
    return beam.plain() ? 1.0 : pi / profile_integral(beam, 1);
}

double ball_gain(const Beam& beam) {
    return beam.plain() ? 1.0 : 4.0 * pi / profile_integral(beam, 0);
}

void set_doors(FaceFront& front, const BarnDoors& doors) {
    front.door_length_m = doors.length_m;
    const std::array<double, 4> angles_deg{doors.top_deg, doors.bottom_deg, doors.left_deg,
                                           doors.right_deg};
    for (std::size_t i = 0; i < angles_deg.size(); ++i) {
        front.door_sine[i] = std::sin(radians(angles_deg[i]));
        front.door_cosine[i] = std::cos(radians(angles_deg[i]));
    }
}

double hot_spot_behind(double hot_spot, int layers) {
    return layers > 1 ? hot_spot * std::exp2(1.0 - layers) : hot_spot;
}

} // namespace keystead
