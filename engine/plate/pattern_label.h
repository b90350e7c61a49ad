// What is written under a picture of a pattern plate.
#pragma once

#include "engine/plate/plate_sets.h"
#include "sim/review/review.h"

#include <string>

namespace keystead {

struct PatternLabel {
    std::string text;     ///< the simulation's name, and the side where a side is meant
    bool as_meant = true; ///< false: `text` says what was meant
};

/// Of a cell that means a pattern: the name of all its lights together. Else of its key alone: a
/// fill would give faint keys its own name.
PatternLabel pattern_label(const PlateCell& cell, const Review& review);

} // namespace keystead
