// The passes of a review, in the order they run. Each fills its own part of the result.
#pragma once

#include "sim/review/bench.h"
#include "sim/review/review.h"

namespace keystead {

/// Every support on its feet.
std::vector<SupportReview> review_supports(const Studio& studio, ReviewMemory& memory);

/// Fills `bench.aids.panels`; every later pass counts light off panels.
void light_panels(Bench& bench, ReviewMemory& memory);
/// What each panel sends to the face. Needs the key.
std::vector<PanelReview> review_panels(const Bench& bench);

/// Each light at the face: direction, distance, flat reading toward it, softness.
std::vector<LightReview> review_lights(const Bench& bench, ReviewMemory& memory);

/// Names the key, its pattern, side and eyes; sets `bench.key` and each light's own pattern.
PortraitReview review_portrait(Bench& bench, std::vector<LightReview>& lights, bool margins,
                               ReviewMemory& memory);

/// What each pupil sees of every light, and the catchlights. Needs the panels.
std::vector<EyeReview> review_eyes(const Bench& bench, const std::vector<PanelReview>& panels);

/// What the lenses of glasses mirror to the camera. Needs the panels.
GlassesReview review_glasses(const Bench& bench, const std::vector<PanelReview>& panels);

/// Dome at the face, camera, ratios; panels that send light to the face are fill. Needs the key.
ExposureReview review_exposure(const Bench& bench, std::vector<LightReview>& lights,
                               const std::vector<PanelReview>& panels);

/// Meter points, shutter, spots and what was really measured.
void review_meter(const Bench& bench, Review& review);

/// From the camera with the reflected-light constant: both cheeks, forehead, background.
std::vector<SpotReading> review_spots(const Bench& bench);

std::vector<SeparationReview> review_separation(const Bench& bench);
BackgroundReview review_background(const Bench& bench);
std::vector<FrameReview> review_frame(const Bench& bench, ReviewMemory& memory);
std::vector<RoomReview> review_room(const Studio& studio);
std::vector<SpillReview> review_spill(const Bench& bench);

/// What wants attention, worst first.
std::vector<Finding> find_all(const Bench& bench, const Review& review);
/// What is always printed, chosen by what the set contains.
std::vector<std::string> cautions_for(const Set& set);

} // namespace keystead
