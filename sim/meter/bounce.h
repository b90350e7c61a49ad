// Light that reaches a receptor by way of other surfaces: walls, floor, ceiling, background, the
// sitter. Traced by diffuse paths from the receptor, as the bake of pictures is.
#pragma once

#include "sim/light/meter.h"
#include "sim/studio/studio.h"

#include <vector>

namespace keystead {

struct BounceOptions {
    int paths = 128;
    int bounces = 40; ///< surfaces between light and receptor, at most
};

/// What each light gives the receptor so, for an exitance of 1. The first bounce off
/// panels and through scrims is left out: light on panels has it (panel_share.h). Colours of
/// surfaces count by their luminance. The same every time.
std::vector<double> bounce_at(const Studio& studio, const Probe& probe,
                              const BounceOptions& options = {});

} // namespace keystead
