// Glasses in both forms of the report.
#pragma once

#include "sim/review/glasses.h"
#include "sim/set/json_text.h"

namespace keystead {

/// Null where none are worn or both lenses are turned away.
Json glasses_json(const GlassesReview& glasses);
/// Empty likewise.
std::string glasses_text(const GlassesReview& glasses);

} // namespace keystead
