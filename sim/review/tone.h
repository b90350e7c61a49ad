// From light on a surface to how dark it comes out: stops from an 18 % card, lightness, code value.
//
// A tone is the reflectance that would look the same in light which reads exactly as the camera is
// set: luminance·pi / H_camera. 18 % stays 18 %; no film curve.
#pragma once

#include "sim/light/sensor.h"

#include <algorithm>
#include <cmath>

namespace keystead {

/// Stops of a tone above the 18 % card; black is taken as 12 stops below it.
inline double stops_from_card(double tone) {
    return std::max(-12.0, std::log2(std::max(tone, 1e-9) / 0.18));
}

/// CIE 1976 L* of a tone; white (1) and everything above it is 100.
inline double lightness(double tone) {
    return cie_lightness(std::clamp(tone, 0.0, 1.0));
}

/// sRGB code 0..255 of a tone, clipped at white.
inline double code_8bit(double tone) {
    return srgb_code(std::clamp(tone, 0.0, 1.0));
}

/// How an edge between two tones comes out.
enum class EdgeVerdict { parts, weak, merges };

// Judgements of ours: a stop is what the trade asks for; in the deepest shadows, where a stop is
// hardly seen, the eye's scale decides; ten units of lightness show at any size.
inline constexpr double parts_stops = 1.0;
inline constexpr double parts_lstar = 10.0;
inline constexpr double weak_stops = 0.5;
inline constexpr double weak_lstar = 4.0;

inline EdgeVerdict edge_verdict(double inside_tone, double outside_tone) {
    const double stops = std::abs(stops_from_card(inside_tone) - stops_from_card(outside_tone));
    const double step = std::abs(lightness(inside_tone) - lightness(outside_tone));
    if (step >= parts_lstar || (stops >= parts_stops && step >= weak_lstar))
        return EdgeVerdict::parts;
    return step >= weak_lstar || (stops >= weak_stops && step >= 0.5 * weak_lstar)
               ? EdgeVerdict::weak
               : EdgeVerdict::merges;
}

inline const char* word_of(EdgeVerdict verdict) {
    if (verdict == EdgeVerdict::parts) return "parts";
    return verdict == EdgeVerdict::weak ? "weak" : "merges";
}

} // namespace keystead
