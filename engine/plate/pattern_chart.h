// A pattern map as a plate to teach from: areas lettered with their names, borders, where the key
// stands, and where an eye loses the lamp.
#pragma once

#include "engine/render/filler.h"
#include "sim/portrait/pattern_map.h"
#include "sim/studio/studio.h"

#include <string>

namespace keystead {

struct PatternChart {
    PatternMap map;
    std::string title;    ///< whose face under which lamp
    std::string subtitle; ///< one line in smaller type
};

/// The chart of one light of a set on its sitter's face; `light` is an index. The lamp is carried
/// round at the distance at which it stands.
PatternChart chart_of(const Studio& studio, std::size_t light);

/// Needs neither window nor graphics card. At least 640 by 400 pixels; type grows with the width.
RgbaImage draw_pattern_chart(const PatternChart& chart, int width_px, int height_px);

} // namespace keystead
