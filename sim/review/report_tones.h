// Whites of the face and the body's fall-off in both forms of the report.
#pragma once

#include "sim/review/review.h"
#include "sim/set/json_text.h"

namespace keystead {

Json clipped_json(const std::optional<ClippedFace>& clipped);
Json body_json(const std::vector<BodyReading>& body);
std::string tones_text(const ExposureReview& exposure);

} // namespace keystead
