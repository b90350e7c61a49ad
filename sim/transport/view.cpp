#include "sim/transport/view.h"

#include <algorithm>
#include <cmath>

namespace keystead {

namespace {

// Clipping planes.
constexpr double near_m = 0.05;
constexpr double far_m = 80.0;

Mat3 looking_axes(const Vec3& eye_m, const Vec3& at_m) {
    const Vec3 backward = glm::normalize(eye_m - at_m);
    const Vec3 up = std::abs(backward.y) > 0.9999 ? Vec3(0, 0, -1) : Vec3(0, 1, 0);
    const Vec3 right = glm::normalize(glm::cross(up, backward));
    return {right, glm::cross(backward, right), backward};
}

} // namespace

bool sees_the_same(const View& a, const View& b) {
    return a.eye_m == b.eye_m && a.axes == b.axes && a.tan_half_width == b.tan_half_width &&
           a.tan_half_height == b.tan_half_height && a.centre == b.centre;
}

View lens_view(const Camera& camera, int width_px, int height_px) {
    const bool upright = camera.orientation == Orientation::upright;
    const double wide_mm = upright ? camera.sensor_height_mm : camera.sensor_width_mm;
    const double high_mm = upright ? camera.sensor_width_mm : camera.sensor_height_mm;
    const double aspect = static_cast<double>(width_px) / std::max(1, height_px);
    // The largest crop of the wanted aspect that fits the sensor.
    const double crop_wide_mm = std::min(wide_mm, high_mm * aspect);
    const double crop_high_mm = std::min(high_mm, wide_mm / aspect);
    View view;
    view.eye_m = camera.position_m;
    view.axes = looking_axes(camera.position_m, camera.aim_m);
    view.tan_half_width = 0.5 * crop_wide_mm / camera.focal_length_mm;
    view.tan_half_height = 0.5 * crop_high_mm / camera.focal_length_mm;
    return view;
}

View orbit_view(const Vec3& centre_m, double azimuth_deg, double elevation_deg, double distance_m,
                double vertical_field_deg, int width_px, int height_px) {
    const double azimuth = radians(azimuth_deg), elevation = radians(elevation_deg);
    const Vec3 toward(std::cos(elevation) * std::sin(azimuth), std::sin(elevation),
                      std::cos(elevation) * std::cos(azimuth));
    View view;
    view.eye_m = centre_m + toward * distance_m;
    view.axes = looking_axes(view.eye_m, centre_m);
    view.tan_half_height = std::tan(0.5 * radians(vertical_field_deg));
    view.tan_half_width = view.tan_half_height * width_px / std::max(1, height_px);
    view.work_light = true;
    return view;
}

Vec3 sight_line(const View& view, const Vec2& place) {
    return view.axes * Vec3(view.centre.x + place.x * view.tan_half_width,
                            view.centre.y + place.y * view.tan_half_height, -1.0);
}

View part_of_view(const View& whole, int width_px, int height_px, int left_px, int top_px,
                  int part_width_px, int part_height_px) {
    View part = whole;
    const Vec2 middle(left_px + 0.5 * part_width_px, top_px + 0.5 * part_height_px);
    part.centre.x += (2.0 * middle.x / width_px - 1.0) * whole.tan_half_width;
    part.centre.y += (1.0 - 2.0 * middle.y / height_px) * whole.tan_half_height;
    part.tan_half_width = whole.tan_half_width * part_width_px / width_px;
    part.tan_half_height = whole.tan_half_height * part_height_px / height_px;
    return part;
}

bool project(const View& view, int width_px, int height_px, const Vec3& point_m, Vec2& pixel) {
    const Vec3 local = glm::transpose(view.axes) * (point_m - view.eye_m);
    const double depth = -local.z;
    if (depth <= 1e-6) return false;
    pixel.x = (0.5 + 0.5 * (local.x / depth - view.centre.x) / view.tan_half_width) * width_px;
    pixel.y = (0.5 - 0.5 * (local.y / depth - view.centre.y) / view.tan_half_height) * height_px;
    return true;
}

glm::mat4 clip_from_room(const View& view, int width_px, int height_px, glm::vec2 offset_px) {
    const double shift_x = 2.0 * static_cast<double>(offset_px.x) / width_px;
    const double shift_y = 2.0 * static_cast<double>(offset_px.y) / height_px;
    const double depth_scale = (far_m + near_m) / (far_m - near_m);
    const double depth_shift = -2.0 * far_m * near_m / (far_m - near_m);
    const Vec3 forward = -view.axes[2];
    const Vec3 rows[4] = {
        (view.axes[0] - view.centre.x * forward) / view.tan_half_width + shift_x * forward,
        (view.axes[1] - view.centre.y * forward) / view.tan_half_height + shift_y * forward,
        depth_scale * forward, forward};
    glm::dmat4 clip(0.0);
    for (int row = 0; row < 4; ++row) {
        for (int column = 0; column < 3; ++column) clip[column][row] = rows[row][column];
        clip[3][row] = -glm::dot(rows[row], view.eye_m);
    }
    clip[3][2] += depth_shift;
    return glm::mat4(clip);
}

} // namespace keystead
