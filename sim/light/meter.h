// What a hand meter reads in the set: quadrature over the emitters with ray-cast visibility.
#pragma once

#include "sim/light/emitter.h"
#include "sim/light/exposure.h" // f_number_of_exposure
#include "sim/light/receptor.h"
#include "sim/light/stops.h" // meter_notation
#include "sim/transport/ray_scene.h"

#include <cstdint>
#include <span>
#include <string>

namespace keystead {

/// A receptor somewhere in the room.
struct Probe {
    Vec3 position_m{0.0};
    Vec3 facing{0.0, 0.0, 1.0}; ///< unit, the receptor's axis
    Receptor receptor = Receptor::flat;
    std::uint32_t blockers = ray_mask::casters; ///< what can shade it
};

/// What one point of the face sends to a receptor when nothing is in the way, full power:
/// L cosθ dA / d² times the receptor's response.
double exposure_from(const Emitter& emitter, const EmitterPoint& point, const Probe& probe);

/// Sum of the shares whose ways are open; `rays` may be null: all are.
double sum_of_seen(std::span<const double> shares, std::span<const Segment> ways,
                   const RayScene* rays, std::uint32_t blockers);

/// Luminous exposure (flash, lx·s) or illuminance (continuous, lx) that one emitter gives the probe
/// at its present power: flat E = ∫ L cosθ dω, dome E = ∫ L (1+cosθ)/2 dω (cardioid).
/// `rays` may be null: nothing shades. About `points` emitter points with visibility.
double exposure_at(const Emitter& emitter, const Probe& probe, const RayScene* rays,
                   int points = 256);

/// Fraction of the emitter (by unoccluded contribution) that a point sees, 0..1.
double visible_fraction(const Emitter& emitter, const Vec3& point_m, const Vec3& normal,
                        const RayScene& rays, std::uint32_t blockers, int points = 64);

} // namespace keystead
