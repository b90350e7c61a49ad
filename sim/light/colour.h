// Colour of a lamp as the camera sees it: colour temperature, gels, white balance.
#pragma once

#include "sim/base/vec.h"
#include "sim/set/set.h"

#include <optional>

namespace keystead {

/// Luminance of linear sRGB's primaries, together 1 (IEC 61966-2-1).
inline constexpr Vec3 luminance_share{0.2126, 0.7152, 0.0722};
inline double luminance(const Vec3& linear_srgb) {
    return glm::dot(linear_srgb, luminance_share);
}

/// The white balance that lamp colours are relative to, kelvin: studio flash's nominal temperature.
inline constexpr double white_balance_k = 5600.0;

/// Reciprocal colour temperature in mired: 1e6 / T.
double mired_of(double colour_k);
double kelvin_of(double mired);

/// Colour temperature of a lamp behind a gel: mired values add.
double gelled_colour_k(double colour_k, double mired_shift);

/// The shift, in mired, that a gel must have to turn one temperature into the other.
double mired_shift_between(double from_k, double to_k);

/// Chromaticity x, y (CIE 1931, 2 degrees) of a black body, 1000 to 15000 K (clamped).
/// Krystek, "An algorithm to calculate correlated colour temperature", Color Research and
/// Application 10 (1985).
Vec2 planckian_xy(double colour_k);

/// Linear sRGB (IEC 61966-2-1 primaries) of a chromaticity with luminance 1.
Vec3 linear_srgb_of_xy(const Vec2& xy);

/// Linear sRGB, luminance 1, of a lamp of `colour_k` seen with a camera balanced for `balance_k`:
/// (1, 1, 1) when they agree. Bradford adaptation; channels outside sRGB are clipped at 0.
Vec3 lamp_colour(double colour_k, double balance_k = white_balance_k);

/// Takes linear sRGB rendered with a camera balanced for `white_balance_k` to that of a camera
/// balanced for `balance_k`, whose own light comes out as (1, 1, 1). Bradford adaptation.
Mat3 balance_matrix(double balance_k);

/// The same behind a gel, luminance 1: its mired shift turns the temperature, its free colour lets
/// so much of each primary through. What it takes of the light is its transmission's business.
Vec3 gelled_colour(double colour_k, const std::optional<Gel>& gel,
                   double balance_k = white_balance_k);

} // namespace keystead
