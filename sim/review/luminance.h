// Exposures, luminances and camera levels used by several parts of the review.
#pragma once

#include "sim/base/vec.h"
#include "sim/studio/studio.h"

#include <cstdint>
#include <vector>

namespace keystead {

/// Luminous exposure over one frame of every light that is on, at a flat receptor: flash in lx·s
/// plus continuous light times the shutter time.
double total_exposure_lx_s(const Studio& studio, const Vec3& position_m, const Vec3& facing,
                           std::uint32_t blockers, int points = 64);

/// One emitter's part of that, at its present power.
double frame_exposure_lx_s(const Emitter& emitter, double exposure, double shutter_s);

/// The incident exposure the camera is set for (flat receptor), lx·s: C N²/S with the exact
/// f-number.
double camera_exposure_lx_s(const Camera& camera, const MeterSettings& meter);

/// Stops by which a Lambertian surface lies above an 18 % card under exactly the camera's exposure.
/// `exposure_lx_s` falls on it, `reflectance` is luminous. Floors at -12.
double stops_over_card(double reflectance, double exposure_lx_s, const Camera& camera,
                       const MeterSettings& meter);

/// The vertex of a hit nearest the ray: luminous albedo of a scene part at that hit.
double luminous_albedo(const ScenePart& part, const RayHit& hit);

} // namespace keystead
