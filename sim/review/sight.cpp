#include "sim/review/sight.h"

#include "sim/base/frames.h"

#include <algorithm>
#include <cmath>

namespace keystead {

CameraFrame camera_frame(const Camera& camera) {
    const bool upright = camera.orientation == Orientation::upright;
    const double wide_mm = upright ? camera.sensor_height_mm : camera.sensor_width_mm;
    const double high_mm = upright ? camera.sensor_width_mm : camera.sensor_height_mm;
    CameraFrame frame;
    frame.eye_m = camera.position_m;
    frame.axes = upright_frame(glm::normalize(camera.position_m - camera.aim_m));
    frame.tan_half_width = 0.5 * wide_mm / camera.focal_length_mm;
    frame.tan_half_height = 0.5 * high_mm / camera.focal_length_mm;
    return frame;
}

Vec3 ray_through(const CameraFrame& frame, double x, double y) {
    return glm::normalize(frame.axes *
                          Vec3(x * frame.tan_half_width, y * frame.tan_half_height, -1.0));
}

bool in_picture(const CameraFrame& frame, const Vec3& point_m, Vec2& at) {
    const Vec3 local = glm::transpose(frame.axes) * (point_m - frame.eye_m);
    if (local.z > -1e-6) return false;
    at = {local.x / (-local.z * frame.tan_half_width),
          local.y / (-local.z * frame.tan_half_height)};
    return true;
}

Sight look(const Studio& studio, int cells_on_long_side) {
    Sight sight;
    sight.frame = camera_frame(studio.set.camera);
    const double aspect = sight.frame.tan_half_width / sight.frame.tan_half_height;
    sight.columns = std::max(1, static_cast<int>(cells_on_long_side * std::min(1.0, aspect)));
    sight.rows = std::max(1, static_cast<int>(cells_on_long_side / std::max(1.0, aspect)));
    std::vector<RayQuery> rays;
    for (int row = 0; row < sight.rows; ++row)
        for (int column = 0; column < sight.columns; ++column) {
            const double x = -1.0 + 2.0 * (column + 0.5) / sight.columns;
            const double y = 1.0 - 2.0 * (row + 0.5) / sight.rows;
            sight.directions.push_back(ray_through(sight.frame, x, y));
            rays.push_back({sight.frame.eye_m, sight.directions.back(), sight_start_m, 1e3});
        }
    sight.hits.resize(rays.size());
    studio.rays->first_hits(rays, ray_mask::all, sight.hits);
    return sight;
}

SurfacePoint surface_at(const Studio& studio, const RayHit& hit, const Vec3& origin_m,
                        const Vec3& direction) {
    const ScenePart& part = studio.scene.parts[hit.mesh];
    const Mesh& mesh = *part.mesh;
    const glm::uvec3 corner = mesh.triangles[hit.triangle];
    const double w = 1.0 - hit.u - hit.v;
    const auto blend = [&](const std::vector<glm::vec3>& values) {
        return w * Vec3(values[corner.x]) + hit.u * Vec3(values[corner.y]) +
               hit.v * Vec3(values[corner.z]);
    };
    SurfacePoint point;
    point.position_m = origin_m + hit.distance_m * direction;
    point.normal = hit.geometric_normal;
    if (!mesh.normals.empty()) {
        const Vec3 smooth = blend(mesh.normals);
        if (glm::length(smooth) > 1e-6) point.normal = glm::normalize(smooth);
    }
    // Cloth and paper are seen from either side.
    if (glm::dot(hit.geometric_normal, direction) > 0.0) point.normal = -point.normal;
    const Vec3 colour = mesh.colours.empty() ? Vec3(part.material.albedo) : blend(mesh.colours);
    point.reflectance = Reflectance{colour}.luminous();
    return point;
}

} // namespace keystead
