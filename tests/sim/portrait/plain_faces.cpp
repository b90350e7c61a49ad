#include "plain_faces.h"

#include <algorithm>
#include <cmath>

namespace plain_faces {

namespace {

/// Pupils are this high above the form's origin; the chart's own heights start there.
constexpr double pupil_height_mm = 14.0;

glm::vec3 chart_point(double x_mm, double y_mm, double z_mm) {
    return {Vec3(x_mm, y_mm + pupil_height_mm, z_mm) * 1e-3};
}

void set_landmarks(SubjectForm& form, double root_z_mm, double tip_z_mm, double base_z_mm) {
    form.lines = {-11.0, -40.0, -47.0, -68.0, 32.0, 50.0, 32.0};
    Landmarks& marks = form.landmarks;
    marks.pupil_left = Vec3(chart_point(32, 0, base_z_mm - 8.0));
    marks.pupil_right = Vec3(chart_point(-32, 0, base_z_mm - 8.0));
    marks.face = marks.sellion = Vec3(chart_point(0, 5, root_z_mm));
    marks.pronasale = Vec3(chart_point(0, -40, tip_z_mm));
    marks.subnasale = Vec3(chart_point(0, -46, base_z_mm));
}

double bell(double distance, double sigma) {
    return std::exp(-0.5 * (distance / sigma) * (distance / sigma));
}

/// How far the nose stands proud at arc `x_mm` from the midline.
double nose_mm(double x_mm, double y_mm) {
    if (y_mm > 2.0 || y_mm < -46.0) return 0.0;
    const double down = std::clamp((2.0 - y_mm) / 42.0, 0.0, 1.0);
    const double height = 2.0 + 20.0 * down;
    const double half_width = 8.0 + 9.0 * down;
    const double under = std::clamp((y_mm + 46.0) / 5.0, 0.0, 1.0);
    const double across = std::abs(x_mm) / half_width;
    return across < 1.0 ? height * under * (1.0 - across * across) : 0.0;
}

double radius_mm(double angle, double y_mm) {
    const double up = (y_mm + 20.0) / (y_mm > -20.0 ? 125.0 : 105.0);
    const double shrink = std::sqrt(std::max(0.0, 1.0 - up * up));
    const double a = 72.0 * shrink, b = 95.0 * shrink; // egg: half width and depth at this height
    const double egg = a * b / std::hypot(b * std::sin(angle), a * std::cos(angle));
    const double x = egg * std::sin(angle);
    const double socket = -7.0 * bell(std::abs(x) - 32.0, 11.0) * bell(y_mm, 8.0);
    const double brow = 4.0 * bell(y_mm - 19.0, 6.0) * bell(x, 34.0);
    const double cheek = 3.0 * bell(std::abs(x) - 38.0, 14.0) * bell(y_mm + 25.0, 14.0);
    const double lips = 3.5 * bell(y_mm + 68.0, 7.0) * bell(x, 16.0);
    return egg + socket + brow + cheek + lips + nose_mm(x, y_mm);
}

Region region_at(double x_mm, double y_mm) {
    if (nose_mm(x_mm, y_mm) > 0.5) return Region::nose;
    if (y_mm > 9.0) return Region::brow;
    if (std::abs(y_mm + 68.0) < 7.0 && std::abs(x_mm) < 22.0) return Region::lip;
    return Region::cheek;
}

void smooth_normals(Mesh& mesh) {
    mesh.normals.assign(mesh.positions_m.size(), glm::vec3(0.0F));
    for (const glm::uvec3& t : mesh.triangles) {
        const glm::vec3 across = glm::cross(mesh.positions_m[t.y] - mesh.positions_m[t.x],
                                            mesh.positions_m[t.z] - mesh.positions_m[t.x]);
        for (int corner = 0; corner < 3; ++corner) mesh.normals[t[corner]] += across;
    }
    for (glm::vec3& normal : mesh.normals) normal = glm::normalize(normal);
}

} // namespace

SubjectForm plate_with_wedge(double protrusion_mm) {
    Mesh mesh;
    constexpr double plate_z = 90.0;
    const auto add = [&](double x, double y, double z, Region region) {
        mesh.positions_m.push_back(chart_point(x, y, z));
        mesh.regions.push_back(static_cast<std::uint8_t>(region));
    };
    for (const Vec2& corner : {Vec2(-75, -112), Vec2(75, -112), Vec2(75, 68), Vec2(-75, 68)})
        add(corner.x, corner.y, plate_z, Region::cheek);
    add(0, 0, plate_z, Region::nose);
    add(-wedge_half_width_mm, wedge_tip_mm, plate_z, Region::nose);
    add(wedge_half_width_mm, wedge_tip_mm, plate_z, Region::nose);
    add(0, wedge_tip_mm, plate_z + protrusion_mm, Region::nose);
    mesh.triangles = {{0, 1, 2}, {0, 2, 3}, {4, 5, 7}, {4, 7, 6}, {5, 6, 7}};
    SubjectForm form;
    form.skin = std::make_shared<const Mesh>(std::move(mesh));
    set_landmarks(form, plate_z, plate_z + protrusion_mm, plate_z);
    return form;
}

SubjectForm plain_head() {
    Mesh mesh;
    constexpr int around = 360, up = 230;
    const auto place = [](double angle, int row) {
        const double y = -122.0 + row;
        const double r = radius_mm(angle, y);
        return chart_point(r * std::sin(angle), y, r * std::cos(angle));
    };
    for (int row = 0; row < up; ++row)
        for (int column = 0; column < around; ++column) {
            // Degrees from -180 so that the two halves meet the same numbers.
            const double angle = radians(column - around / 2);
            mesh.positions_m.push_back(place(angle, row));
            const glm::vec3& p = mesh.positions_m.back();
            const bool front = std::abs(angle) < pi / 2;
            const double x = 1e3 * static_cast<double>(p.x);
            mesh.regions.push_back(
                static_cast<std::uint8_t>(front ? region_at(x, -122.0 + row) : Region::other));
        }
    const auto id = [](int row, int column) {
        return static_cast<glm::uint>(row * around + column % around);
    };
    for (int row = 0; row + 1 < up; ++row)
        for (int column = 0; column < around; ++column) {
            const glm::uvec4 q(id(row, column), id(row, column + 1), id(row + 1, column + 1),
                               id(row + 1, column));
            // Diagonals mirrored, too.
            if (column < around / 2) {
                mesh.triangles.emplace_back(q.x, q.y, q.z);
                mesh.triangles.emplace_back(q.x, q.z, q.w);
            } else {
                mesh.triangles.emplace_back(q.x, q.y, q.w);
                mesh.triangles.emplace_back(q.y, q.z, q.w);
            }
        }
    smooth_normals(mesh);
    SubjectForm form;
    form.skin = std::make_shared<const Mesh>(std::move(mesh));
    set_landmarks(form, 94.0, 114.0, 92.0);
    return form;
}

Emitter disc_at(const SubjectForm& form, double azimuth_deg, double elevation_deg,
                double diameter_m, double distance_m) {
    const Vec3 direction = direction_from({azimuth_deg, elevation_deg});
    Emitter emitter;
    emitter.light = "key";
    emitter.shape = ModifierShape::disc;
    emitter.centre_m = form.landmarks.face + distance_m * direction;
    emitter.axes = upright_frame(-direction);
    emitter.width_m = emitter.height_m = diameter_m;
    emitter.area_m2 = 0.25 * pi * diameter_m * diameter_m;
    emitter.exitance = 1.0 / emitter.area_m2; // the same flux whatever the size
    return emitter;
}

Emitter posed(const Emitter& emitter, const Mat3& head_axes, const Vec3& head_origin_m) {
    Emitter moved = emitter;
    moved.centre_m = head_axes * emitter.centre_m + head_origin_m;
    moved.axes = head_axes * emitter.axes;
    return moved;
}

} // namespace plain_faces
