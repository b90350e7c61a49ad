#include "sim/review/sight.h"

#include <cmath>

namespace keystead {

Sight sight_of(const Camera& camera) {
    Sight sight;
    sight.eye_m = camera.position_m;
    sight.ahead = glm::normalize(camera.aim_m - camera.position_m);
    const Mat3 frame = upright_frame(-sight.ahead);
    sight.right = frame[0];
    sight.up = frame[1];
    const bool upright = camera.orientation == Orientation::upright;
    const double wide_mm = upright ? camera.sensor_height_mm : camera.sensor_width_mm;
    const double high_mm = upright ? camera.sensor_width_mm : camera.sensor_height_mm;
    sight.tan_half_width = 0.5 * wide_mm / camera.focal_length_mm;
    sight.tan_half_height = 0.5 * high_mm / camera.focal_length_mm;
    return sight;
}

Vec3 ray_through(const Sight& sight, double x, double y) {
    return glm::normalize(sight.ahead + x * sight.tan_half_width * sight.right +
                          y * sight.tan_half_height * sight.up);
}

std::optional<Vec2> frame_point(const Sight& sight, const Vec3& point_m) {
    const Vec3 offset = point_m - sight.eye_m;
    const double depth = glm::dot(offset, sight.ahead);
    if (depth <= 1e-6) return std::nullopt;
    return Vec2(glm::dot(offset, sight.right) / (depth * sight.tan_half_width),
                glm::dot(offset, sight.up) / (depth * sight.tan_half_height));
}

std::optional<Seen> see(const Studio& studio, const Sight& sight, const Vec3& direction) {
    // The camera's own body surrounds the entrance pupil: step through it.
    double start_m = 0.0;
    Seen seen;
    for (int layers = 0; layers < 64; ++layers) {
        if (!studio.rays->first_hit(sight.eye_m, direction, start_m, 100.0, ray_mask::all,
                                    seen.hit))
            return std::nullopt;
        seen.part = &studio.scene.parts[seen.hit.mesh];
        if (seen.part->owner != "camera") break;
        start_m = seen.hit.distance_m + 1e-4;
    }
    seen.point_m = sight.eye_m + seen.hit.distance_m * direction;
    seen.normal = glm::dot(seen.hit.geometric_normal, direction) < 0.0 ? seen.hit.geometric_normal
                                                                       : -seen.hit.geometric_normal;
    return seen;
}

} // namespace keystead
