// The sentences of Learn.
#pragma once

#include "sim/base/frames.h"
#include "sim/portrait/pattern_map.h"
#include "sim/review/review.h"

#include <string>

namespace keystead::ui {

/// As the trade writes it: "loop", "Rembrandt", "no name".
std::string pattern_words(Pattern pattern);
/// "42° to the sitter's left, 35° up", "straight on, 20° down"; "°" whole.
std::string direction_words(Angles direction);
/// How far the lamp is from other names, nearest first, two names at most: "Next: Rembrandt 6°
/// higher, split 14° to the sitter's left." Empty where nothing near is known.
std::string next_names(const PortraitReview& portrait);
/// "loop, 6° from Rembrandt"
std::string place_words(const PatternMap& map, Angles direction);

} // namespace keystead::ui
