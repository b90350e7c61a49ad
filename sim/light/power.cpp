#include "sim/light/power.h"

#include "sim/light/output.h"
#include "sim/light/stops.h"

#include <algorithm>
#include <cmath>

namespace keystead {

PowerSetting power_after(const Head& head, double change_stops) {
    constexpr double slack_stops = 0.05;
    const double wanted = head.power_stops_below - change_stops;
    PowerSetting setting;
    setting.stops_below = std::clamp(wanted, 0.0, head.range_stops);
    const double over = wanted - setting.stops_below;
    if (over < -slack_stops) setting.missing_stops = -over;
    if (over > slack_stops) setting.excess_stops = over;
    return setting;
}

std::optional<double> distance_for_stops(const Emitter& emitter, double from_m, double stops) {
    constexpr double nearest_m = 0.05, farthest_m = 100.0;
    const double wanted = axial_exposure(emitter, from_m) * std::exp2(stops);
    double near_m = nearest_m, far_m = farthest_m;
    if (!(wanted > 0.0) || axial_exposure(emitter, near_m) < wanted ||
        axial_exposure(emitter, far_m) > wanted)
        return {};
    // Light on the axis only falls with distance; halve in the logarithm to a thousandth.
    while (far_m / near_m > 1.001) {
        const double middle_m = std::sqrt(near_m * far_m);
        (axial_exposure(emitter, middle_m) > wanted ? near_m : far_m) = middle_m;
    }
    return std::sqrt(near_m * far_m);
}

double grid_loss_stops(const Emitter& emitter, double distance_m) {
    if (!emitter.grid) return 0.0;
    Emitter bare = emitter;
    bare.grid.reset();
    const double with = axial_exposure(emitter, distance_m);
    return with > 0.0 ? stops_between(with, axial_exposure(bare, distance_m)) : 0.0;
}

} // namespace keystead
