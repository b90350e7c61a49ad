#include "sim/light/flash_tail.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace keystead {

double flash_share_by(double time_s, double t05_s) {
    return 1.0 - std::exp2(-std::max(0.0, time_s) / t05_s);
}

double t01_of_t05_s(double t05_s) {
    return t05_s * std::log2(10.0);
}

double curtain_travel_s(const Camera& camera) {
    return std::min(camera.curtain_s, camera.sync_s);
}

double open_after_flash_s(const Camera& camera, double row) {
    // The second curtain passes a row one exposure after the first did.
    return camera.shutter_s - curtain_travel_s(camera) * (1.0 - row);
}

double tail_loss_stops(const Camera& camera, double row, double t05_s) {
    const double share = flash_share_by(open_after_flash_s(camera, row), t05_s);
    return share > 0.0 ? -std::log2(share) : std::numeric_limits<double>::infinity();
}

double shutter_for_tail_loss_s(const Camera& camera, double t05_s, double stops) {
    return curtain_travel_s(camera) - t05_s * std::log2(1.0 - std::exp2(-stops));
}

} // namespace keystead
