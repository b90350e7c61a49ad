#include "sim/subject/gaze.h"

#include <algorithm>
#include <cmath>

namespace keystead {

namespace {

/// About the axis square to both: straight ahead to `target` (unit, head frame), at most the limit.
Mat3 turn_toward(const Vec3& target) {
    const double sine = std::hypot(target.x, target.y);
    if (sine < 1e-12) {
        // Straight ahead, or straight behind, where no way round is the shortest.
        return Mat3(1.0);
    }
    const double angle = std::min(std::atan2(sine, target.z), radians(most_eye_turn_deg));
    const Vec3 axis(-target.y / sine, target.x / sine, 0.0);
    const double c = std::cos(angle), s = std::sin(angle);
    const auto turned = [&](const Vec3& v) {
        // Rodrigues' rotation formula.
        return v * c + glm::cross(axis, v) * s + axis * (glm::dot(axis, v) * (1.0 - c));
    };
    return {turned({1, 0, 0}), turned({0, 1, 0}), turned({0, 0, 1})};
}

} // namespace

std::array<Mat3, 2> eye_turns(const Gaze& gaze, const Mat3& head_axes,
                              const std::array<Vec3, 2>& eyes_m, const Vec3& camera_m) {
    std::array<Mat3, 2> turns{Mat3(1.0), Mat3(1.0)};
    if (gaze.kind == GazeKind::ahead) return turns;
    for (std::size_t i = 0; i < 2; ++i) {
        const Vec3 room = gaze.kind == GazeKind::camera
                              ? camera_m - eyes_m[i]
                              : direction_from({gaze.azimuth_deg, gaze.elevation_deg});
        const double length = glm::length(room);
        if (length > 1e-9) turns[i] = turn_toward(glm::transpose(head_axes) * room / length);
    }
    return turns;
}

} // namespace keystead
