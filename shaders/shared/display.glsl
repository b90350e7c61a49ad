// From linear radiance to a picture: the curve that the shader and the C++ test share.
//
// One text for GLSL and C++ (engine/render/display_text.h defines KEYSTEAD_CPP and the types), like
// emission.glsl. Mid grey and everything below `shoulder_start` pass unchanged; above, a rational
// shoulder reaches white at `white_point`. Hue is kept by scaling the three channels together, with
// a share of the plain per-channel curve so that bright colours go to white as film does.
#ifndef KEYSTEAD_CPP
#define Real float
#define Real3 vec3
#define SHARED
#endif

SHARED const Real shoulder_start = Real(0.55);
SHARED const Real white_point = Real(6.0);
SHARED const Real per_channel_share = Real(0.4);
SHARED const Real whiten_from = Real(1.2);

// Below this a print is black: sRGB code 5 of 255, common practice.
SHARED const Real black_tone = Real(0.001518);

// Slope 1 at the start, 1 at the white point.
SHARED Real shoulder(Real x) {
    if (x <= shoulder_start) {
        return x;
    }
    Real t = (x - shoulder_start) / (Real(1.0) - shoulder_start);
    Real last = (white_point - shoulder_start) / (Real(1.0) - shoulder_start);
    if (t >= last) {
        return Real(1.0);
    }
    return shoulder_start +
           (Real(1.0) - shoulder_start) * t / (Real(1.0) + t * (last - Real(1.0)) / last);
}

// IEC 61966-2-1.
SHARED Real srgb_encoded(Real x) {
    if (x <= Real(0.0031308)) {
        return Real(12.92) * max(x, Real(0.0));
    }
    return Real(1.055) * pow(x, Real(1.0 / 2.4)) - Real(0.055);
}

SHARED Real3 srgb_encoded3(Real3 c) {
    return Real3(srgb_encoded(c.x), srgb_encoded(c.y), srgb_encoded(c.z));
}

SHARED Real3 soft_shoulder(Real3 exposed) {
    Real3 c = max(exposed, Real3(Real(0.0)));
    Real m = max(c.x, max(c.y, c.z));
    if (m <= shoulder_start) {
        return c;
    }
    Real y = shoulder(m);
    Real3 together = c * (y / m);
    Real3 apart = Real3(shoulder(c.x), shoulder(c.y), shoulder(c.z));
    Real3 mixed = together + (apart - together) * per_channel_share;
    Real s = min(max((m - whiten_from) / (white_point - whiten_from), Real(0.0)), Real(1.0));
    Real whitening = s * s * (Real(3.0) - Real(2.0) * s);
    return mixed + (Real3(y) - mixed) * whitening;
}

// Display code 0..1 of exposed linear light; hard clip without the shoulder.
SHARED Real3 display_encoded(Real3 exposed, bool soft) {
    Real3 shown = soft ? soft_shoulder(exposed)
                       : min(max(exposed, Real3(Real(0.0))), Real3(Real(1.0)));
    return srgb_encoded3(shown);
}
