#include "sim/subject/lens.h"

#include <algorithm>
#include <cmath>

namespace keystead {

bool within_outline(const LensSurface& lens, const Vec2& place_m, double wider_m) {
    const double x = std::abs(place_m.x) / (lens.half_width_m + wider_m);
    const double y = std::abs(place_m.y) / (lens.half_height_m + wider_m);
    return std::pow(x, lens_outline_power) + std::pow(y, lens_outline_power) <= 1.0;
}

std::optional<LensMeeting> meet_lens(const LensSurface& lens, const Vec3& from_m,
                                     const Vec3& direction) {
    const Vec3 from = from_m - lens.sphere_centre_m;
    const double along = glm::dot(from, direction);
    const double rest = along * along - glm::dot(from, from) + lens.radius_m * lens.radius_m;
    if (rest < 0.0) return std::nullopt;
    for (const double root : {-std::sqrt(rest), std::sqrt(rest)}) {
        LensMeeting met;
        met.distance_m = root - along;
        met.position_m = from_m + met.distance_m * direction;
        const Vec3 local = glm::transpose(lens.axes) * (met.position_m - lens.middle_m);
        // The sphere's far side has the same outline.
        const bool far_side = local.z <= -lens.radius_m;
        if (met.distance_m <= 0.0 || far_side || !within_outline(lens, Vec2(local))) continue;
        met.normal = (met.position_m - lens.sphere_centre_m) / lens.radius_m;
        if (glm::dot(met.normal, direction) > 0.0) met.normal = -met.normal;
        return met;
    }
    return std::nullopt;
}

double surface_reflectance(double cosine, double index) {
    const double in = std::clamp(cosine, 0.0, 1.0);
    const double out = std::sqrt(1.0 - (1.0 - in * in) / (index * index));
    const double across = (in - index * out) / (in + index * out);
    const double along = (index * in - out) / (index * in + out);
    return 0.5 * (across * across + along * along);
}

double plate_reflectance(double cosine, double index) {
    const double one = surface_reflectance(cosine, index);
    return 2.0 * one / (1.0 + one);
}

} // namespace keystead
