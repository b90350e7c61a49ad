// How an emitting face shines: the formulas that the renderer and the simulation share.
//
// One text for GLSL and for C++ in double, in float and in sixteen lanes (words.glsl says what the
// words mean; sim/light/emission_text.h and sim/transport/emission_lanes.h include it). Keep to plain
// functions of the common subset: no swizzles, no out parameters, literals as Real(...), no branch on
// a Real. Inverse cosines are written with atan(y, x): some GL implementations' acos errs by more
// than 1e-4.
//
// Local frame of a face: x along its width, y along its height, z outward along the beam.
#ifndef KEYSTEAD_CPP
#include "shared/words.glsl"
#endif

CONSTANT Flat emission_pi = Flat(3.14159265358979323846);

// Same numbers as keystead::ModifierShape.
CONSTANT int shape_bare = 0;
CONSTANT int shape_disc = 1;
CONSTANT int shape_ring = 2;
CONSTANT int shape_rectangle = 3;
CONSTANT int shape_octagon = 4;
CONSTANT int shape_umbrella = 5;

CONSTANT int cell_none = 0;
CONSTANT int cell_round = 1;
CONSTANT int cell_square = 2;

// Transmittance of a round black-walled cell, u = depth / width * tan(angle from the axis): the
// overlap of two unit-diameter circles u apart, over the circle's area.
SHARED Real round_cell_transmittance(Real u) {
    Real c = sqrt(max(Real(0.0), Real(1.0) - u * u));
    Real overlap = Real(2.0) / emission_pi * (atan(c, u) - u * c);
    return choose(u < Real(1.0), overlap, Real(0.0));
}

// The same for a square cell; ux, uy are u's components along its sides.
SHARED Real square_cell_transmittance(Real ux, Real uy) {
    return max(Real(0.0), Real(1.0) - abs(ux)) * max(Real(0.0), Real(1.0) - abs(uy));
}

// Transmittance of a grid for light leaving along `direction` (local frame, any length). Of what
// falls on the walls, `wall_reflection` gets out as well. Nothing leaves behind the face; without a
// grid everything leaves in front of it.
SHARED Real grid_transmittance(int cell, Flat depth_over_width, Flat open_fraction,
                               Flat wall_reflection, Real3 direction) {
    Mask outward = direction.z > Real(0.0);
    if (cell == cell_none) {
        return choose(outward, Real(1.0), Real(0.0));
    }
    Real along = choose(outward, direction.z, Real(1.0));
    Real ux = depth_over_width * abs(direction.x) / along;
    Real uy = depth_over_width * abs(direction.y) / along;
    Real through = Real(0.0);
    if (cell == cell_square) {
        through = square_cell_transmittance(ux, uy);
    } else {
        through = round_cell_transmittance(sqrt(ux * ux + uy * uy));
    }
    return choose(outward,
                  open_fraction * (through + wall_reflection * (Real(1.0) - through)), Real(0.0));
}

// Squared radius for the hot-spot, scaled so that its mean over the face is 1/2 whatever the shape.
// `q` is the place on the face over its half width and half height; `inner` the ring's inner over
// outer diameter; `sagitta` the umbrella's sagitta over its rim radius.
SHARED Real hot_spot_r2(int shape, Real2 q, Flat inner, Flat sagitta) {
    Real r2 = q.x * q.x + q.y * q.y;
    if (shape == shape_rectangle) {
        return Real(0.75) * r2;
    }
    if (shape == shape_octagon) {
        // Polar second moment of a regular octagon over its area: a^2/2 (1 + tan^2(pi/8)/3).
        return r2 / Real(1.0571909584179366);
    }
    if (shape == shape_ring) {
        return r2 / (Flat(1.0) + inner * inner);
    }
    if (shape == shape_umbrella && sagitta > Flat(0.0)) {
        // Archimedes: the area of a cap grows with its height, so height is the area fraction.
        Flat radius = (Flat(1.0) + sagitta * sagitta) / (Flat(2.0) * sagitta);
        return r2 / (sagitta * (radius + sqrt(max(Real(0.0), radius * radius - r2))));
    }
    return r2;
}

// Exitance at a place of the face over its mean: brighter at the centre by `hot_spot`.
SHARED Real hot_spot_factor(int shape, Flat hot_spot, Real2 q, Flat inner, Flat sagitta) {
    if (shape == shape_bare) {
        return Real(1.0);
    }
    Real r2 = hot_spot_r2(shape, q, inner, sagitta);
    return max(Real(0.0), Real(1.0) + hot_spot * (Real(1.0) - Real(2.0) * r2));
}

// Does light leaving the inside of a spherical cap at `p` (relative to the rim's centre, metres)
// along unit `direction` clear the rim? The chord's far end must lie beyond the rim's plane.
SHARED Mask leaves_cap(Real3 p, Real3 direction, Flat rim_radius, Flat sagitta) {
    Flat radius = (rim_radius * rim_radius + sagitta * sagitta) / (Flat(2.0) * sagitta);
    Real3 inward = Real3(-p.x, -p.y, radius - sagitta - p.z);
    Real chord = Real(2.0) * dot(inward, direction);
    return chord > Real(0.0) && p.z + chord * direction.z > Real(0.0);
}
