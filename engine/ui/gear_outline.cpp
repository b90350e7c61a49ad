#include "engine/ui/gear_outline.h"

#include "sim/support/panel_pose.h"

#include "sim/base/frames.h"

#include <algorithm>
#include <cmath>

namespace keystead::ui {

namespace {

/// Ring of points about `centre` in the head's plane; eight corners for an octagon, four for a
/// rectangle, round otherwise.
void add_rim(std::vector<Vec3>& points, const Vec3& centre, const Mat3& axes, double half_width,
             double half_height, ModifierShape shape) {
    if (shape == ModifierShape::rectangle) {
        for (const double x : {-1.0, 1.0})
            for (const double y : {-1.0, 1.0})
                points.push_back(centre + axes[0] * (half_width * x) + axes[1] * (half_height * y));
        return;
    }
    const bool octagon = shape == ModifierShape::octagon;
    const int count = octagon ? 8 : 20;
    // Across flats: the corners lie further out by 1 / cos 22.5°, and half a side round.
    const double out = octagon ? 1.0 / std::cos(pi / 8.0) : 1.0, first = octagon ? pi / 8.0 : 0.0;
    for (int i = 0; i < count; ++i) {
        const double angle = first + 2.0 * pi * i / count;
        points.push_back(centre + axes[0] * (half_width * out * std::cos(angle)) +
                         axes[1] * (half_height * out * std::sin(angle)));
    }
}

} // namespace

std::vector<Vec3> face_points(const Light& light, const SupportPose& pose) {
    std::vector<Vec3> points;
    const Modifier& m = light.modifier;
    const Vec3 rim = pose.emitter_m + m.lip_m * pose.beam_direction;
    if (m.shape == ModifierShape::bare)
        add_rim(points, pose.emitter_m, pose.head_axes, 0.03, 0.03, m.shape);
    else if (m.shape == ModifierShape::sphere)
        // Its outline from above and from the side.
        for (const Mat3& axes :
             {pose.head_axes, Mat3(pose.head_axes[2], pose.head_axes[1], pose.head_axes[0])})
            add_rim(points, pose.emitter_m, axes, 0.5 * m.width_m, 0.5 * m.width_m, m.shape);
    else
        add_rim(points, rim, pose.head_axes, 0.5 * m.width_m, 0.5 * m.height_m, m.shape);
    return points;
}

std::vector<Vec3> modifier_points(const Light& light, const SupportPose& pose) {
    const Modifier& m = light.modifier;
    std::vector<Vec3> points = face_points(light, pose);
    if (m.shape == ModifierShape::bare) return points;
    if (m.shape == ModifierShape::umbrella) {
        // The cap bulges away from the rim's plane, against the beam; a shoot-through one with it.
        const double way = m.umbrella == UmbrellaKind::shoot_through ? -1.0 : 1.0;
        for (int ring = 1; ring <= 4; ++ring) {
            const double across = 1.0 - 0.25 * ring,
                         back = way * m.depth_m * (1.0 - across * across);
            add_rim(points, pose.emitter_m - back * pose.beam_direction, pose.head_axes,
                    0.5 * m.width_m * across, 0.5 * m.height_m * across, m.shape);
        }
        return points;
    }
    const Vec3 back = pose.emitter_m - m.depth_m * pose.beam_direction;
    const double neck = 0.5 * std::min({light.head.diameter_m * 1.1, m.width_m, m.height_m});
    add_rim(points, back, pose.head_axes, neck, neck, ModifierShape::disc);
    return points;
}

std::vector<Vec3> head_points(const Light& light, const SupportPose& pose) {
    std::vector<Vec3> points;
    const double half = 0.5 * light.head.length_m, radius = 0.5 * light.head.diameter_m;
    for (const double end : {-half, half})
        add_rim(points, pose.tip_m + end * pose.beam_direction, pose.head_axes, radius, radius,
                ModifierShape::disc);
    return points;
}

std::vector<Vec3> panel_points(const Panel& panel) {
    const PanelPose pose = pose_panel(panel);
    const PanelLeaf &left = pose.leaves.front(), &right = pose.leaves.back();
    const auto corner = [](const PanelLeaf& leaf, double x, double y) {
        return leaf.centre_m +
               0.5 * (x * leaf.width_m * leaf.axes[0] + y * leaf.height_m * leaf.axes[1]);
    };
    const Vec3 top = panel.height_m * pose.axes[1];
    return {corner(left, -1, -1), pose.bottom_m,       corner(right, 1, -1),
            corner(right, 1, 1),  pose.bottom_m + top, corner(left, -1, 1)};
}

Points projected(const Page& page, const std::vector<Vec3>& points_m) {
    Points points;
    points.reserve(points_m.size());
    for (const Vec3& p : points_m) points.push_back(page.at(p));
    return points;
}

} // namespace keystead::ui
