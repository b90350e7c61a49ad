// The shape of an emitting face: its area, and maps from samples to points, uniform by area.
#pragma once

#include "sim/light/emitter.h"

namespace keystead {

/// Radius of the sphere that an umbrella's canopy is part of, from rim radius and sagitta.
double cap_radius_m(double rim_radius_m, double sagitta_m);

/// Area of the emitting surface. Round faces may be elliptical; an octagon is measured across its
/// flats; an umbrella is the inside of a spherical cap; a bare lamp a sphere of `width_m`.
double face_area_m2(const Emitter& emitter);

/// Point of a face in polar terms: `area_fraction` of the face lies inside (bare: before) it,
/// `turn` 0..1 once round. Rectangles take them as place across the width and the height.
EmitterPoint face_point(const Emitter& emitter, double area_fraction, double turn);

/// Exitance over its mean at a place of the face, given over the half width and half height. Not of
/// bare lamps, which shine evenly.
double relative_exitance(const Emitter& emitter, const Vec2& place);

} // namespace keystead
