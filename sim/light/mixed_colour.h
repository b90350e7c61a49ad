// Colour temperature of several lamps' light falling together on one place.
#pragma once

#include "sim/base/vec.h"

#include <optional>
#include <span>

namespace keystead {

/// One lamp's part in a mixture: amounts of light in any one photometric unit.
struct ColourShare {
    double colour_k = 5600.0;
    double amount = 0.0;
};

/// Chromaticity x, y (CIE 1931) of a mixture: tristimulus values add. Empty without light.
std::optional<Vec2> mixed_xy(std::span<const ColourShare> shares);

/// Correlated colour temperature of a chromaticity near the black-body line, 2000 to 12500 K.
/// McCamy, "Correlated color temperature as an explicit function of chromaticity coordinates",
/// Color Research and Application 17 (1992).
double correlated_colour_k(const Vec2& xy);

/// Correlated colour temperature of a mixture. Empty without light.
std::optional<double> mixed_colour_k(std::span<const ColourShare> shares);

} // namespace keystead
