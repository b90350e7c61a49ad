// From linear radiance to a picture: the curve that the shader and the C++ test share.
//
// One text for GLSL and C++ (engine/render/display_text.h defines KEYSTEAD_CPP and the types: one
// float, and sixteen at a time), like reflection.glsl. Mid grey and everything below `shoulder_start` pass unchanged; above, a rational
// shoulder reaches white at `white_point`. Hue is kept by scaling the three channels together, with
// a share of the plain per-channel curve so that bright colours go to white as film does.
#ifndef KEYSTEAD_CPP
#define Real float
#define Real3 vec3
#define SHARED
#define Flat float
#define CONSTANT const
#define choose(condition, yes, no) ((condition) ? (yes) : (no))
#endif

CONSTANT Flat shoulder_start = Flat(0.55);
CONSTANT Flat white_point = Flat(6.0);
CONSTANT Flat per_channel_share = Flat(0.4);
CONSTANT Flat whiten_from = Flat(1.2);

// Below this a print is black: sRGB code 5 of 255, common practice.
CONSTANT Flat black_tone = Flat(0.001518);

// Slope 1 at the start, 1 at the white point.
SHARED Real shoulder(Real x) {
    Real t = (x - Real(shoulder_start)) / Real(Flat(1.0) - shoulder_start);
    Real last = Real((white_point - shoulder_start) / (Flat(1.0) - shoulder_start));
    // Below the start the curve is not asked for; there it has no pole either.
    Real high = max(t, Real(0.0));
    Real curve = Real(shoulder_start) +
                 Real(Flat(1.0) - shoulder_start) * high / (Real(1.0) + high * (last - Real(1.0)) / last);
    return choose(x <= Real(shoulder_start), x, choose(t >= last, Real(1.0), curve));
}

// IEC 61966-2-1.
SHARED Real srgb_encoded(Real x) {
    Real positive = max(x, Real(0.0));
    Real curve = Real(1.055) * pow(positive, Real(1.0 / 2.4)) - Real(0.055);
    return choose(x <= Real(0.0031308), Real(12.92) * positive, curve);
}

SHARED Real3 srgb_encoded3(Real3 c) {
    return Real3(srgb_encoded(c.x), srgb_encoded(c.y), srgb_encoded(c.z));
}

SHARED Real3 soft_shoulder(Real3 exposed) {
    Real3 c = max(exposed, Real3(Real(0.0)));
    Real m = max(c.x, max(c.y, c.z));
    Real y = shoulder(m);
    Real3 together = c * (y / max(m, Real(1e-6)));
    Real3 apart = Real3(shoulder(c.x), shoulder(c.y), shoulder(c.z));
    Real3 mixed = together + (apart - together) * Real(per_channel_share);
    Real s = min(max((m - Real(whiten_from)) / Real(white_point - whiten_from), Real(0.0)),
                 Real(1.0));
    Real whitening = s * s * (Real(3.0) - Real(2.0) * s);
    return choose(m <= Real(shoulder_start), c, mixed + (Real3(y) - mixed) * whitening);
}

// A print's contrast, a look: what lies under mid grey goes down by a power, grey and all above it
// stay. 0 leaves everything as it is.
SHARED Real3 printed(Real3 exposed, Flat contrast) {
    if (contrast <= Flat(0.0)) {
        return exposed;
    }
    Real y = Real(0.2126) * exposed.x + Real(0.7152) * exposed.y + Real(0.0722) * exposed.z;
    Real down = pow(max(y, Real(0.0)) / Real(0.18), Real(contrast));
    return exposed * choose(y < Real(0.18), down, Real(1.0));
}

// Display code 0..1 of exposed linear light; hard clip without the shoulder.
SHARED Real3 display_encoded(Real3 exposed, bool soft) {
    Real3 clipped = min(max(exposed, Real3(Real(0.0))), Real3(Real(1.0)));
    return srgb_encoded3(soft ? soft_shoulder(exposed) : clipped);
}
