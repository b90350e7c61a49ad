// The polar diagram of a distribution, as photometric data sheets draw it.
#pragma once

#include "sim/photometry/distribution.h"

#include <string>

namespace keystead {

/// SVG, black on white: candela against the angle from the beam axis (down), the plane H = 0 drawn
/// whole, H = 90 broken, rings labelled in candela. Types A and B: the horizontal and the vertical
/// section through the beam.
std::string polar_plot_svg(const Distribution& distribution);

} // namespace keystead
