// The passes of a review, in the order they run. Each fills its own part of the result.
#pragma once

#include "sim/review/bench.h"
#include "sim/review/outline.h"
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

/// Skin that comes out white. Needs the exposure's bounce and the panels.
std::optional<ClippedFace>
review_clipped(const Bench& bench, const std::vector<PanelReview>& panels, ReviewMemory& memory);
/// How the light falls off from head to feet. Needs the key.
std::vector<BodyReading> review_body(const Bench& bench);

/// What key and second light are called together. Needs the exposure and the panels.
void review_pair(const Bench& bench, Review& review);

/// Meter points, shutter and what was really measured.
void review_meter(const Bench& bench, Review& review);

/// From the camera with the reflected-light constant: both cheeks, forehead, background.
std::vector<SpotReading> review_spots(const Bench& bench);

/// `edges` are the bench's. Needs the key.
std::vector<SeparationReview> review_separation(const Bench& bench, const std::vector<Edge>& edges);

/// What places spread over the background in the picture get.
struct BackgroundLight {
    std::vector<double> reflectances, exposures_lx_s; ///< by place
};
BackgroundLight light_on_background(const Bench& bench);
/// Needs the key.
BackgroundReview review_background(const Bench& bench, const BackgroundLight& light);
std::vector<FrameReview> review_frame(const Bench& bench, ReviewMemory& memory);
std::vector<RoomReview> review_room(const Studio& studio);
std::vector<SpillReview> review_spill(const Bench& bench);
/// Lights behind the sitter against the lens. Needs the spill.
std::vector<LensAim> review_lens_aims(const Bench& bench, const Review& review);
/// Of the head, of every light that throws one on the background's plane.
std::vector<BackgroundShadow> review_shadows(const Bench& bench);

/// What wants attention, worst first.
std::vector<Finding> find_all(const Bench& bench, const Review& review);
/// What is always printed, chosen by what the set contains.
std::vector<std::string> cautions_for(const Set& set);

} // namespace keystead
