// Looking things up in a review's memory, or computing and keeping them.
#pragma once

#include "sim/review/keys.h"
#include "sim/review/review.h"
#include "sim/review/sight.h"

namespace keystead {

const FaceChart& face_chart_of(const Studio& studio, ReviewMemory& memory);

/// All lights together on the face at their present power.
CombinedPattern pattern_of(const Studio& studio, ReviewMemory& memory);

/// How far head and key may move under that light; with `compute` false only what is remembered.
std::optional<PatternHolds> holds_of(const Studio& studio, std::size_t light, bool compute,
                                     ReviewMemory& memory);

std::shared_ptr<const Sight> sight_of(const Studio& studio, ReviewMemory& memory);

} // namespace keystead
