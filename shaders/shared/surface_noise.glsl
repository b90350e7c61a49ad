// Small unevenness that real surfaces have. Means are kept: noise is symmetric about 1, so that the
// reflectance of an area is the document's. It fades out where it is finer than a pixel.
//
// One text for GLSL and for C++ (sim/transport/noise_lanes.h), like emission.glsl; finish.glsl comes
// before it.
#ifndef KEYSTEAD_CPP
#include "shared/words.glsl"
#endif

// -1..1 from what the three coordinates of a corner of the lattice were multiplied to.
SHARED Real corner_value(Uint x, Uint y, Uint z) {
    Uint h = x ^ y ^ z;
    h = h ^ (h >> 15);
    h = h * Uint(0x2C1B3C6Du);
    h = h ^ (h >> 12);
    h = h * Uint(0x297A2D39u);
    h = h ^ (h >> 15);
    return to_float(as_signed(h & Uint(0xFFFFu))) / Real(32767.5) - Real(1.0);
}

// A step from corner to corner, smooth at both ends.
SHARED Real eased(Real t) { return t * t * (Real(3.0) - Real(2.0) * t); }

SHARED Real between(Real low, Real high, Real share) {
    return low * (Real(1.0) - share) + high * share;
}

// Value noise, -1..1, mean 0.
SHARED Real smooth_noise(Real3 p) {
    Real cell_x = floor(p.x);
    Real cell_y = floor(p.y);
    Real cell_z = floor(p.z);
    Uint x0 = as_unsigned(to_int(cell_x)) * Uint(0x8DA6B343u);
    Uint y0 = as_unsigned(to_int(cell_y)) * Uint(0xD8163841u);
    Uint z0 = as_unsigned(to_int(cell_z)) * Uint(0xCB1AB31Fu);
    Uint x1 = x0 + Uint(0x8DA6B343u);
    Uint y1 = y0 + Uint(0xD8163841u);
    Uint z1 = z0 + Uint(0xCB1AB31Fu);
    Real x = eased(p.x - cell_x);
    Real y = eased(p.y - cell_y);
    Real low = between(between(corner_value(x0, y0, z0), corner_value(x1, y0, z0), x),
                       between(corner_value(x0, y1, z0), corner_value(x1, y1, z0), x), y);
    Real high = between(between(corner_value(x0, y0, z1), corner_value(x1, y0, z1), x),
                        between(corner_value(x0, y1, z1), corner_value(x1, y1, z1), x), y);
    return between(low, high, eased(p.z - cell_z));
}

// Noise of a grain size in metres, gone where the grain is finer than a pixel.
SHARED Real grain(Real3 position_m, Flat size_m, Real footprint_m) {
    Real shown = clamp(size_m / footprint_m - Real(0.7), Real(0.0), Real(1.0));
    if (!some(shown > Real(0.0))) {
        return Real(0.0);
    }
    return shown * smooth_noise(position_m * Real(Flat(1.0) / size_m));
}

// Strands: noise drawn out along the grain (line integral convolution), -1..1, mean 0. Works on any
// field of tangents, with no coordinate along the hair. `width_m` is that of a lock, not of a hair.
SHARED Real strands(Real3 position_m, Real3 tangent, Flat width_m, Real footprint_m) {
    Real shown = clamp(Flat(1.6) * width_m / footprint_m - Real(0.7), Real(0.0), Real(1.0));
    if (!some(shown > Real(0.0))) {
        return Real(0.0);
    }
    Real sum = Real(0.0);
    for (int i = -5; i <= 5; ++i) {
        Real along = Real(Flat(i) * Flat(1.1) * width_m);
        sum = sum + smooth_noise((position_m + tangent * along) * Real(Flat(1.0) / width_m));
    }
    // The mean of eleven loses contrast; bring it back.
    return shown * clamp(sum * Real(2.6 / 11.0), Real(-1.0), Real(1.0));
}

// Albedo and highlights of hair: light and dark locks, and each lock turned a little its own way.
SHARED Real hair_tone(Real3 position_m, Real3 tangent, Real footprint_m) {
    return Real(0.45) * strands(position_m, tangent, Flat(0.0011), footprint_m) +
           Real(0.30) * strands(position_m + Real3(Real(7.0)), tangent, Flat(0.0032), footprint_m);
}

// By what share albedo (x) and roughness (y) differ from the document's at a place.
SHARED Real2 surface_variation(int finish, Real3 p, Real footprint_m) {
    Real tone = Real(0.0);
    Real rough = Real(0.0);
    if (finish == finish_cloth) {
        tone = Real(0.10) * grain(p, Flat(0.0013), footprint_m) +
               Real(0.05) * grain(p, Flat(0.011), footprint_m);
        rough = Real(0.05) * grain(p, Flat(0.004), footprint_m);
    } else if (finish == finish_paper) {
        tone = Real(0.012) * grain(p, Flat(0.35), footprint_m) +
               Real(0.006) * grain(p, Flat(0.004), footprint_m);
    } else if (finish == finish_floor) {
        tone = Real(0.07) * grain(p, Flat(0.60), footprint_m) +
               Real(0.06) * grain(p, Flat(0.045), footprint_m);
        rough = Real(0.16) * grain(p, Flat(0.40), footprint_m) +
                Real(0.12) * grain(p, Flat(0.03), footprint_m);
    } else if (finish == finish_skin) {
        tone = Real(0.025) * grain(p, Flat(0.007), footprint_m) +
               Real(0.025) * grain(p, Flat(0.0016), footprint_m);
        rough = Real(0.08) * grain(p, Flat(0.0012), footprint_m) +
                Real(0.05) * grain(p, Flat(0.015), footprint_m);
    }
    return Real2(tone, rough);
}
