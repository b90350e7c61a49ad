// What an emitting face does to directions: how it gathers, where it is cut off, and what stands in
// front of it. The formulas themselves are in shaders/shared/beam.glsl, for the picture too.
#pragma once

#include "sim/base/vec.h"
#include "sim/set/set.h"

#include <array>

namespace keystead {

/// Profile of a face's radiance over direction: L(θ) = M/pi · gain · cos^(exponent-1) θ · cut-off.
struct Beam {
    double exponent = 1.0; ///< 1: Lambertian
    double cutoff_half_deg = 90.0;
    double cutoff_edge_deg = 2.0;
    /// What makes the profile's flux that of the Lambertian face: pi / ∫ profile cosθ dω. For a
    /// cupped canopy also its area over its mouth's, since the light that meets it again stays in
    /// it.
    double gain = 1.0;
    bool plain() const { return exponent == 1.0 && cutoff_half_deg >= 90.0; }
    bool operator==(const Beam&) const = default;
};

/// Rim, flaps and (reflecting umbrella) the lamp in front of a face; metres, the face's frame.
struct FaceFront {
    double half_width_m = 0.0, half_height_m = 0.0; ///< of the rim
    double lip_m = 0.0;
    double door_length_m = 0.0;                       ///< 0: no flaps
    std::array<double, 4> door_sine{}, door_cosine{}; ///< top, bottom, left, right
    double lamp_ahead_m = 0.0;
    double lamp_radius_m = 0.0; ///< 0: no lamp in front
    bool empty() const { return lip_m <= 0.0 && door_length_m <= 0.0 && lamp_radius_m <= 0.0; }
    bool operator==(const FaceFront&) const = default;
};

/// Gain of a flat face's profile (see Beam::gain): (n+1)/2 without a cut-off, since
/// ∫ cosⁿ dω = 2 pi/(n+1) over the hemisphere.
double flat_gain(const Beam& beam);

/// Gain of a glowing ball behind a profile about its axis: 4 pi / ∫ profile dω.
double ball_gain(const Beam& beam);

/// Sines and cosines of the flaps' angles to the beam.
void set_doors(FaceFront& front, const BarnDoors& doors);

/// Hot-spot behind so many layers: as the document states it for one, half of that for each further
/// layer (common practice: an inner baffle evens out most of what is left).
double hot_spot_behind(double hot_spot, int layers);

} // namespace keystead
