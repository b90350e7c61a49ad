#include "sim/light/mixed_colour.h"

#include "sim/light/colour.h"

#include <algorithm>

namespace keystead {

std::optional<Vec2> mixed_xy(std::span<const ColourShare> shares) {
    double x_sum = 0.0, y_sum = 0.0, sum = 0.0; // CIE X, Y and X + Y + Z
    for (const ColourShare& share : shares) {
        if (share.amount <= 0.0) continue;
        const Vec2 xy = planckian_xy(share.colour_k);
        x_sum += share.amount * xy.x / xy.y;
        y_sum += share.amount;
        sum += share.amount / xy.y;
    }
    if (sum <= 0.0) return {};
    return Vec2{x_sum / sum, y_sum / sum};
}

double correlated_colour_k(const Vec2& xy) {
    const double n = (xy.x - 0.3320) / (0.1858 - xy.y);
    return ((449.0 * n + 3525.0) * n + 6823.3) * n + 5520.33;
}

std::optional<double> mixed_colour_k(std::span<const ColourShare> shares) {
    // Lamps of one temperature keep it: the formula is good to some kelvin only.
    double lowest_k = 1e9, highest_k = 0.0;
    for (const ColourShare& share : shares) {
        if (share.amount <= 0.0) continue;
        lowest_k = std::min(lowest_k, share.colour_k);
        highest_k = std::max(highest_k, share.colour_k);
    }
    if (lowest_k == highest_k) return lowest_k;
    const std::optional<Vec2> xy = mixed_xy(shares);
    if (!xy) return {};
    return std::clamp(correlated_colour_k(*xy), 1000.0, 25000.0);
}

} // namespace keystead
