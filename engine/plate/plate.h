// A contact sheet: many small stills on one sheet, labelled.
#pragma once

#include "engine/plate/plate_sets.h"
#include "engine/render/still.h"

#include <functional>

namespace keystead {

struct PlateOptions {
    int cell_width_px = 176, cell_height_px = 220;
    int samples = 48;
    int bounce_paths = 48;                ///< a small lamp near a wall shows blotches with fewer
    std::function<bool(double)> progress; ///< told the share done, 0..1; false stops
};

/// Renders every cell as a still would be, in a headless context of its own.
Result<RgbaImage> draw_plate(const Plate& plate, const PlateOptions& options);

} // namespace keystead
