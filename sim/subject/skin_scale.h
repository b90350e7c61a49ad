// Skin from very dark to very light on one scale: its luminous reflectance.
#pragma once

#include "sim/base/vec.h"

#include <array>

namespace keystead {

/// A measured subject of the published survey: luminous reflectance, and mean reflectance of the
/// red, green and blue part of the spectrum (600-680, 500-570 and 420-490 nm).
struct SkinRow {
    double luminance = 0.0;
    Vec3 bands{0.0};
};

/// Darkest, 5th percentile, median and lightest of 100 inner forearms: Cooksey, Allen and Tsai,
/// J. Res. NIST 122 (2017) 26, doi 10.6028/jres.122.026, data doi 10.18434/M38597; bands and
/// luminances (CIE y-bar times 5500 K) computed from the spectra. Faces are darker than forearms,
/// and the survey holds few very dark people.
const std::array<SkinRow, 4>& skin_survey();

inline constexpr double least_skin_luminance = 0.05;
inline constexpr double most_skin_luminance = 0.47;

/// Diffuse reflectance, linear sRGB, of skin of luminous reflectance `luminance` (held within the
/// two bounds above); its own luminous reflectance is exactly that. Between survey rows by
/// proportion; below the darkest toward the dark-skin patch of the colour chart (McCamy, Marcus and
/// Davidson 1976, Y 0.1005, published as sRGB 115, 82, 68), and below that in its hue. Continuing
/// the survey's own trend to darker skin came out purple.
Vec3 skin_of_luminance(double luminance);

} // namespace keystead
