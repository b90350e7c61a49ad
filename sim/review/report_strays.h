// Stray light in both forms of the report.
#pragma once

#include "sim/review/review.h"
#include "sim/set/json_text.h"

namespace keystead {

Json lens_aims_json(const std::vector<LensAim>& aims);
Json shadows_json(const std::vector<BackgroundShadow>& shadows);
/// "Stray light" with its lines; empty where nothing stands behind the sitter and no shadow falls.
std::string strays_text(const Review& review);

} // namespace keystead
