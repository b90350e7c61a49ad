#include "sim/portrait/lens_mirror.h"

#include "sim/light/face_meeting.h"
#include "sim/subject/lens.h"

#include <algorithm>
#include <cmath>
#include <glm/gtc/quaternion.hpp>

namespace keystead {

namespace {

/// Of the surface, at a place in the lens's own axes.
LensRay ray_at(const LensSurface& lens, const Vec2& place_m, const Vec3& camera_m, bool inner) {
    const double r = lens.radius_m;
    const double z = std::sqrt(std::max(0.0, r * r - glm::dot(place_m, place_m)));
    LensRay ray;
    ray.normal = lens.axes * (Vec3(place_m, z) / r);
    ray.from_m = lens.sphere_centre_m + r * ray.normal;
    ray.direction = glm::reflect(glm::normalize(ray.from_m - camera_m), ray.normal);
    ray.inner = inner;
    return ray;
}

double angle_between_deg(const Vec3& a, const Vec3& b) {
    return degrees(std::atan2(glm::length(glm::cross(a, b)), glm::dot(a, b)));
}

} // namespace

std::vector<LensRay> lens_rays(const LensSurface& lens, const Vec3& camera_m) {
    constexpr int columns = 11, rows = 9, on_edge = 40;
    std::vector<LensRay> rays;
    if (glm::dot(camera_m - lens.middle_m, lens.axes[2]) <= 0.0) return rays;
    for (int row = 0; row < rows; ++row)
        for (int column = 0; column < columns; ++column) {
            const Vec2 at(lens.half_width_m * (2.0 * (column + 0.5) / columns - 1.0),
                          lens.half_height_m * (2.0 * (row + 0.5) / rows - 1.0));
            if (within_outline(lens, at)) rays.push_back(ray_at(lens, at, camera_m, true));
        }
    for (int i = 0; i < on_edge; ++i) {
        // Superellipse by angle: |cos|^(2/n), |sin|^(2/n).
        const double turn = 2.0 * pi * i / on_edge, power = 2.0 / lens_outline_power;
        const auto along = [&](double x) { return std::copysign(std::pow(std::abs(x), power), x); };
        rays.push_back(ray_at(
            lens,
            {lens.half_width_m * along(std::cos(turn)), lens.half_height_m * along(std::sin(turn))},
            camera_m, false));
    }
    return rays;
}

LensSurface tipped(const LensSurface& lens, const Vec3& head_left, double tilt_deg) {
    LensSurface turned = lens;
    // About the axis to the subject's left, + turns forward to down.
    turned.axes = glm::mat3_cast(glm::angleAxis(radians(tilt_deg), head_left)) * lens.axes;
    turned.sphere_centre_m = turned.middle_m - turned.axes[2] * turned.radius_m;
    return turned;
}

LensSpread lens_spread(const LensSurface& lens, const Vec3& camera_m) {
    const auto mirrored = [&](double x, double y) {
        return ray_at(lens, {x, y}, camera_m, true).direction;
    };
    const double w = lens.half_width_m, h = lens.half_height_m;
    return {mirrored(0, 0), 0.5 * angle_between_deg(mirrored(-w, 0), mirrored(w, 0)),
            0.5 * angle_between_deg(mirrored(0, -h), mirrored(0, h))};
}

bool shows(const std::vector<LensRay>& rays, const Emitter& face) {
    return std::any_of(rays.begin(), rays.end(), [&](const LensRay& ray) {
        return meet_face(face, ray.from_m, ray.direction).has_value();
    });
}

Emitter carried(Emitter face, const Vec3& centre_m, const Vec3& axis, double angle_deg) {
    const Mat3 turn = glm::mat3_cast(glm::angleAxis(radians(angle_deg), axis));
    face.centre_m = centre_m + turn * (face.centre_m - centre_m);
    face.axes = turn * face.axes;
    return face;
}

double clear_angle_deg(const std::vector<LensRay>& rays, const Emitter& face, const Vec3& centre_m,
                       const Vec3& axis, double most_deg) {
    constexpr double step_deg = 2.0, fine_deg = 0.1;
    const auto clear = [&](double angle) {
        return !shows(rays, carried(face, centre_m, axis, angle));
    };
    for (double high = 0.0; high <= most_deg + 1e-9; high += step_deg) {
        if (!clear(high)) continue;
        double low = high - step_deg, top = high;
        while (top > 0.0 && top - low > fine_deg) {
            const double middle = 0.5 * (low + top);
            (clear(middle) ? top : low) = middle;
        }
        return top;
    }
    return -1.0;
}

} // namespace keystead
