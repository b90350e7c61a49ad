// One review's view of its set: who is measured, from where, with what. Readings are in lx·s: flash
// as it is, continuous light over the camera's shutter time.
#pragma once

#include "sim/light/meter.h"
#include "sim/meter/reading_aids.h"
#include "sim/review/review.h"
#include "sim/review/sight.h"

#include <vector>

namespace keystead {

/// Where light by way of other surfaces was found, and how much each light gives there: it changes
/// slowly over a surface, so places nearby share it.
struct BouncePlace {
    Probe probe;
    double total_lx_s = 0.0;
};

struct Bench {
    const Studio& studio;
    const Landmarks& marks;
    const Sight& sight;
    double iso = 100.0;
    double flat_c_lx_s = 250.0, dome_c_lx_s = 330.0;
    double camera_f_number = 8.0;        ///< exact value behind the nominal mark
    double camera_exposure_lx_s = 160.0; ///< a flat meter reads just what the camera is set to

    ReadingAids aids{};                          ///< panels as lit, and what was read before
    std::vector<BouncePlace>* bounced = nullptr; ///< of this review
    bool searches = false;                       ///< see ReviewOptions
    ReviewMemory::EyeRays* eye = nullptr;        ///< rays from the camera, kept while nothing moves

    int key = -1;                   ///< index of the light the ratios and stops are counted from
    double key_exposure_lx_s = 0.0; ///< flat, at the face, toward the key, alone
};
Bench make_bench(const Studio& studio, const Sight& sight);

/// What one light gives a probe, lx·s, directly and off panels; 0 for a light that is off.
double exposure_lx_s(const Bench& bench, std::size_t light, const Probe& probe, int points = 128);
/// All lights together, by way of other surfaces too, and room light. Places within `shared_m` that
/// face the same way share their bounce.
double total_exposure_lx_s(const Bench& bench, const Probe& probe, double shared_m,
                           int points = 128);
/// Points of a light for tones of surfaces: shadows' edges do not matter there.
inline constexpr int edge_points = 55;
inline constexpr double sitter_shared_m = 0.15, room_shared_m = 0.4;

/// What the camera sees along a direction, of the meshes in `mask`.
bool see(const Bench& bench, const Vec3& direction, std::uint32_t mask, RayHit& hit);
/// Is anything between the camera and a point?
bool hidden(const Bench& bench, const Vec3& point_m);

/// Direct light on a surface point, everything that stands in the way counted.
Probe probe_on(const SurfacePoint& point);

/// f-number on a flat meter at the camera's ISO.
double flat_f_number(const Bench& bench, double exposure_lx_s);

/// Stops of an exposure above the key's; nothing without a key or without light.
std::optional<double> stops_from_key(const Bench& bench, double exposure_lx_s);

/// The tone (see tone.h) of what a ray from the camera met, and how much of it is gloss.
struct SeenTone {
    double tone = 0.0, gloss = 0.0;
};
SeenTone tone_of_hit(const Bench& bench, const RayHit& hit, const Vec3& direction);

bool is_background(const Bench& bench, const RayHit& hit);

} // namespace keystead
