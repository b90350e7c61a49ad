// The hand meter's part of the report, as text and as JSON.
#pragma once

#include "sim/review/review.h"
#include "sim/set/json_text.h"

#include <string>

namespace keystead {

/// Array of meter points: each light alone, all together, all without each.
Json meter_points_json(const std::vector<PointReading>& points);
/// Key and fill both ways: K:F and (K+F):F, each with its stops. The text says what it rests on.
Json ratio_json(const ExposureReview& exposure);
std::string ratio_text(const ExposureReview& exposure);
Json shutter_json(const ShutterReading& shutter);
Json spots_json(const std::vector<SpotReading>& spots);
/// `{"rows": [...], "corrections": [...]}`.
Json measured_json(const MeasuredTable& measured);

std::string meter_points_text(const Review& review);
std::string shutter_text(const ShutterReading& shutter);
std::string spots_text(const std::vector<SpotReading>& spots);
/// Empty where nothing was measured.
std::string measured_text(const Review& review);

/// One point: a line for the whole, one for each light.
std::string point_text(const PointReading& point);

} // namespace keystead
