#include "sim/portrait/pattern.h"

#include <algorithm>
#include <cmath>

namespace keystead {

const char* name_of(Pattern pattern) {
    switch (pattern) {
    case Pattern::butterfly:
        return "butterfly";
    case Pattern::loop:
        return "loop";
    case Pattern::rembrandt:
        return "rembrandt";
    case Pattern::split:
        return "split";
    case Pattern::rim:
        return "rim";
    case Pattern::underlight:
        return "underlight";
    case Pattern::toplight:
        return "toplight";
    case Pattern::flat:
        return "flat";
    case Pattern::crossed:
        return "crossed";
    case Pattern::none:
        return "none";
    }
    return "none";
}

const char* name_of(Side side) {
    switch (side) {
    case Side::short_side:
        return "short";
    case Side::broad_side:
        return "broad";
    case Side::front:
        return "front";
    }
    return "front";
}

Angles face_angles(const Vec3& direction, const Mat3& head_axes) {
    return angles_of(glm::transpose(head_axes) * direction);
}

Vec2 tip_shadow_mm(double protrusion_mm, Angles face_relative) {
    const double azimuth = radians(face_relative.azimuth_deg);
    return {protrusion_mm * std::tan(azimuth),
            protrusion_mm * std::tan(radians(face_relative.elevation_deg)) / std::cos(azimuth)};
}

Side lit_side(const Vec3& to_light, const Vec3& to_camera, const Mat3& head_axes) {
    const Vec3 light = glm::normalize(glm::transpose(head_axes) * to_light);
    const double off_plane_deg = degrees(std::asin(std::clamp(light.x, -1.0, 1.0)));
    const double camera_deg = face_angles(to_camera, head_axes).azimuth_deg;
    if (std::abs(camera_deg) < front_camera_deg || std::abs(off_plane_deg) < front_lamp_deg)
        return Side::front;
    // The camera sees more of the side of the face that it stands on.
    return (off_plane_deg > 0.0) == (camera_deg > 0.0) ? Side::broad_side : Side::short_side;
}

} // namespace keystead
