// A clear spectacle lens as glass: where a line meets it, what it lets through and what it mirrors.
#pragma once

#include "sim/subject/subject.h"

#include <optional>

namespace keystead {

/// Outline of a lens: the superellipse |x/a|^n + |y/b|^n = 1 in its own axes.
inline constexpr double lens_outline_power = 3.0;

/// Is a place, in the lens's own axes, within its outline widened by `wider_m`?
bool within_outline(const LensSurface& lens, const Vec2& place_m, double wider_m = 0.0);

/// A crown-glass or plastic lens without a coating: reflectance 0.04 at a surface, straight on.
inline constexpr double lens_index = 1.5;

struct LensMeeting {
    double distance_m = 0.0; ///< along the line
    Vec3 position_m{0.0};
    Vec3 normal{0.0, 0.0, 1.0}; ///< of the sphere, unit, turned to where the line comes from
};

/// Where the line from `from_m` along unit `direction` first meets the front surface, from either
/// side; nothing where it passes outside the outline.
std::optional<LensMeeting> meet_lens(const LensSurface& lens, const Vec3& from_m,
                                     const Vec3& direction);

/// Reflectance of one glass surface for unpolarised light; `cosine` of the angle of incidence in
/// air (Fresnel's equations).
double surface_reflectance(double cosine, double index = lens_index);

/// Share that a clear plate sends back: both surfaces and every reflection between them,
/// 2R / (1 + R) (Stokes 1862). The rest, (1 - R) / (1 + R), goes through: 0.92 straight on.
double plate_reflectance(double cosine, double index = lens_index);

} // namespace keystead
