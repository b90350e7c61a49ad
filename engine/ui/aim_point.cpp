#include "engine/ui/aim_point.h"

#include <algorithm>

namespace keystead::ui {

Vec3 aim_point(const Light& light, const SupportPose& pose, const Landmarks& landmarks) {
    Vec3 target = landmarks.face;
    if (light.aim.kind == AimKind::point) return light.aim.point_m;
    if (light.aim.kind == AimKind::landmark) {
        find_landmark(landmarks, light.aim.landmark, target);
        return target;
    }
    const double along = glm::dot(landmarks.face - pose.emitter_m, pose.beam_direction);
    return pose.emitter_m + std::clamp(along, 0.5, 4.0) * pose.beam_direction;
}

Vec3 aim_handle(const Vec3& from_m, const Vec3& target_m) {
    constexpr double before_m = 0.30;
    const double distance = glm::length(target_m - from_m);
    if (distance < 2.0 * before_m) return 0.5 * (from_m + target_m);
    return target_m + (before_m / distance) * (from_m - target_m);
}

} // namespace keystead::ui
