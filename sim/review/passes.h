// The passes of a review, in the order `review_set` runs them. Each reads a studio and earlier
// results, and fills its own section.
#pragma once

#include "sim/review/review.h"

namespace keystead {

std::vector<SupportReview> review_supports(const Studio& studio, ReviewMemory& memory);

/// Readings of each light alone: flat at the face, facing the light, shaded by gear and panels.
std::vector<LightReview> review_lights(const Studio& studio, ReviewMemory& memory);

/// The light that makes the pattern: the strongest on the face from in front of the ears, else the
/// strongest; -1 when no light is on.
int key_light(const Studio& studio, const std::vector<LightReview>& lights);

PortraitReview review_portrait(const Studio& studio, int key, const ReviewMemory& memory,
                               const ReviewOptions& options);

/// Dome at the face toward the camera; ratios by both definitions.
ExposureReview review_exposure(const Studio& studio, const std::vector<LightReview>& lights,
                               int key);

std::vector<SeparationReview> review_separation(const Studio& studio);

BackgroundReview review_background(const Studio& studio, const std::vector<LightReview>& lights,
                                   int key);

std::vector<FrameReview> review_frame(const Studio& studio);

std::vector<RoomReview> review_room(const Studio& studio);

std::vector<SpillReview> review_spill(const Studio& studio, const std::vector<LightReview>& lights,
                                      int key);

/// Everything that wants attention, worst first.
std::vector<Finding> collect_findings(const Studio& studio, const Review& review);

/// The cautions printed beside every review, chosen by what the set contains.
std::vector<std::string> cautions_for(const Set& set);

} // namespace keystead
