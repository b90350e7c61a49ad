#include "sim/support/panel_pose.h"

#include "sim/base/frames.h"

#include <cmath>

namespace keystead {

namespace {

Mat3 panel_axes(double turn_deg, double tilt_deg, double roll_deg) {
    const Vec3 z = direction_from({turn_deg, tilt_deg});
    const Vec3 x = glm::cross(Vec3(0, 1, 0), direction_from({turn_deg, 0.0}));
    const Vec3 y = glm::cross(z, x);
    const double roll = radians(roll_deg);
    return {std::cos(roll) * x + std::sin(roll) * y, std::cos(roll) * y - std::sin(roll) * x, z};
}

PanelLeaf leaf_from(const Vec3& bottom_m, const Mat3& axes, double from_x_m, const Panel& panel) {
    const double x = from_x_m + 0.5 * panel.width_m, y = 0.5 * panel.height_m;
    return {bottom_m + x * axes[0] + y * axes[1], axes, panel.width_m, panel.height_m};
}

/// Aimed along the working side; nothing of the head shows.
SupportPose carried_by(const Panel& panel) {
    SupportPose pose = pose_support(as_load(panel), panel_aim(panel));
    std::vector<MassPoint> masses;
    for (MassPoint& mass : pose.masses) {
        if (mass.part == "head") continue;
        if (mass.part == "modifier") mass.part = "panel";
        masses.push_back(mass);
    }
    pose.masses = std::move(masses);
    return pose;
}

} // namespace

AimTarget panel_aim(const Panel& panel) {
    AimTarget target;
    target.is_direction = true;
    target.direction = direction_from({panel.turn_deg, panel.tilt_deg});
    return target;
}

Light as_load(const Panel& panel) {
    Light load;
    load.id = panel.id;
    load.role = "panel";
    load.head.mass_kg = load.head.length_m = 0.0;
    load.modifier.shape = ModifierShape::rectangle;
    load.modifier.mass_kg = panel.mass_kg;
    load.modifier.com_ahead_m = load.modifier.depth_m = 0.0;
    if (panel.support) load.support = *panel.support;
    return load;
}

PanelPose pose_panel(const Panel& panel) {
    PanelPose pose;
    const bool folds = panel.kind == PanelKind::v_flat;
    pose.axes = panel_axes(panel.turn_deg, panel.tilt_deg, folds ? 0.0 : panel.roll_deg);
    const Vec3 to_middle(0.0, 0.5 * panel.height_m, 0.0);
    if (panel.support) {
        pose.support = carried_by(panel);
        pose.bottom_m = pose.support->tip_m - pose.axes * to_middle;
    } else {
        // Rolled about its middle, which stays over the position.
        const Mat3 level = panel_axes(panel.turn_deg, panel.tilt_deg, 0.0);
        pose.bottom_m = panel.position_m + level * to_middle - pose.axes * to_middle;
    }
    if (!folds) {
        pose.leaves = {leaf_from(pose.bottom_m, pose.axes, -0.5 * panel.width_m, panel)};
        return pose;
    }
    // The leaf on camera right of a panel facing the camera turns its face outward, to the right.
    for (const double hand : {-1.0, 1.0}) {
        const Mat3 axes = panel_axes(panel.turn_deg + hand * panel.fold_deg, panel.tilt_deg, 0.0);
        pose.leaves.push_back(
            leaf_from(pose.bottom_m, axes, hand < 0.0 ? -panel.width_m : 0.0, panel));
    }
    return pose;
}

} // namespace keystead
