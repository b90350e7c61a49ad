// A map of stops: bands of one stop about a reference tone. One text for GLSL and C++, like
// display.glsl.
//
// Lightness rises evenly from band to band, so that a grey print keeps the order. The reference
// band has no colour, what is darker turns blue and what is lighter yellow: that pair stays apart
// in the common forms of colour blindness.
#ifndef KEYSTEAD_CPP
#define Real float
#define Real3 vec3
#define SHARED
#endif

SHARED const Real lowest_stop_band = Real(-6.0);
SHARED const Real highest_stop_band = Real(4.0);

// Whole number: 0 within half a stop of the reference.
SHARED Real stop_band(Real stops) {
    return min(max(floor(stops + Real(0.5)), lowest_stop_band), highest_stop_band);
}

// Rec. 709 luminance of linear sRGB.
SHARED Real luminance_of(Real3 c) {
    return Real(0.2126) * c.x + Real(0.7152) * c.y + Real(0.0722) * c.z;
}

// Stops of an exposed tone from the reference; black counts as 20 stops below.
SHARED Real stops_of_tone(Real tone, Real reference) {
    return log2(max(tone / reference, Real(0.000001)));
}

// Linear sRGB. CIE L* of the band is 8 a step, 60 at the reference.
SHARED Real3 stop_band_colour(Real band) {
    Real lightness = Real(60.0) + Real(8.0) * band;
    Real f = (lightness + Real(16.0)) / Real(116.0);
    Real y = f > Real(6.0 / 29.0) ? f * f * f : (f - Real(4.0 / 29.0)) * Real(108.0 / 841.0);
    // Away from grey at constant luminance: blue down, yellow up; less where the gamut is narrow.
    Real3 toward = band < Real(0.0) ? Real3(Real(-0.30), Real(-0.055), Real(1.4281))
                                    : Real3(Real(0.32), Real(0.02), Real(-1.1404));
    Real much = min(abs(band) * Real(0.35), band < Real(0.0) ? Real(0.9) : Real(0.75));
    return Real3(y) + toward * (y * much);
}
