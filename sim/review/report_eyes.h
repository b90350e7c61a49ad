// The eyes in both forms of the report.
#pragma once

#include "sim/review/eyes.h"
#include "sim/set/json_text.h"

namespace keystead {

Json eye_json(const EyeReview& eye);
std::string eyes_text(const std::vector<EyeReview>& eyes);

/// "key at half past ten, 3.1 × 3.4 mm".
std::string catchlight_words(const CatchlightReview& catchlight);
/// "the brow hides 60 %, fill's gear 12 %"; empty where nothing hides a tenth.
std::string hiders_words(const EyeLight& light);

} // namespace keystead
