// Boards and frames that stand in the set: V-flats, reflectors, flags, scrims.

#include "sim/light/panel_light.h"
#include "sim/shape/build/sheet.h"
#include "sim/shape/build/solids.h"
#include "sim/shape/content_key.h"
#include "sim/shape/gear/gear.h"
#include "sim/shape/gear_parts.h"
#include "sim/shape/materials.h"
#include "sim/shape/part_list.h"
#include "sim/support/panel_pose.h"
#include "sim/transport/ray_scene.h"

#include <algorithm>
#include <cmath>

namespace keystead {

namespace {

using build::Frame;

constexpr double pad_height_m = 0.008; ///< rubber pads under a board's lower edge
constexpr double board_cell_m = 0.10;

/// Board or cloth: a rough metal where it is silver; a scrim lets light through.
Material working_material(const Panel& panel, float roughness) {
    const PanelSurface surface = surface_of(panel);
    Material material = surface.silver ? materials::metal(glm::vec3(panel.reflectance.rgb),
                                                          static_cast<float>(surface.roughness))
                                       : materials::painted(panel.reflectance, roughness);
    material.transmission = static_cast<float>(surface.transmission);
    return material;
}

/// A board whose working face is the frame's x, y plane, from x0 to x1 and y0 to y1.
Mesh board(const Frame& frame, double x0, double x1, double y0, double y1, double thickness_m) {
    const auto side = [&](double z) {
        return [&, z](double u, double v) {
            return frame.at(glm::mix(x0, x1, u), glm::mix(y0, y1, v), z);
        };
    };
    return build::slab(build::cells(x1 - x0, board_cell_m), build::cells(y1 - y0, board_cell_m),
                       side(0.0), side(-thickness_m));
}

/// One leaf of a V-flat: hinged at the position, folded back from the working side.
void add_leaf(PartList& list, const Panel& panel, const PanelPose& pose, double hand) {
    const Frame frame{pose.bottom_m, pose.leaves[hand < 0.0 ? 0 : 1].axes};
    const double x0 = hand < 0.0 ? -panel.width_m : 0.0;
    const double x1 = hand < 0.0 ? 0.0 : panel.width_m;
    const double lift = pose.bottom_m.y < pad_height_m ? pad_height_m - pose.bottom_m.y : 0.0;
    list.add("board", working_material(panel, 0.65F),
             board(frame, x0, x1, lift, panel.height_m, board_thickness_m));
    if (lift <= 0.0) return;
    for (const double part : {0.12, 0.88})
        list.add(
            "foot", materials::rubber(),
            build::box(frame.moved(glm::mix(x0, x1, part), 0.5 * lift, -0.5 * board_thickness_m),
                       {0.040, 0.5 * lift, 0.020}));
}

/// Tape along the hinge keeps two boards together.
void add_hinge(PartList& list, const Panel& panel, const PanelPose& pose) {
    const Frame frame{pose.bottom_m, pose.axes};
    const double bottom = std::max(0.0, pad_height_m - pose.bottom_m.y);
    list.add(
        "board", materials::rubber(),
        build::bar(frame.at(0, bottom, -0.004), frame.at(0, panel.height_m, -0.004), 0.007, 8));
}

/// An upright beside the frame with a T-shaped foot. Nothing where the panel lies on the floor.
void add_upright(PartList& list, const Panel& panel, const Frame& frame, double hand) {
    const Vec3 clamp = frame.at(hand * (0.5 * panel.width_m + 0.030), 0.55 * panel.height_m, 0.0);
    if (clamp.y < 0.15) return;
    const Vec3 foot(clamp.x, 0.0, clamp.z);
    const Vec3 flat = glm::normalize(glm::cross(frame.x(), Vec3(0, 1, 0)));
    const double reach = std::clamp(0.18 * panel.height_m, 0.14, 0.32);
    list.add("stand", materials::black_metal(),
             build::bar(foot + Vec3(0, 0.02, 0), clamp + Vec3(0, 0.04, 0), 0.012, 12));
    list.add("stand", materials::black_metal(),
             build::chamfered_box({foot + Vec3(0, 0.015, 0), Mat3(frame.x(), Vec3(0, 1, 0), flat)},
                                  {0.018, 0.015, reach}, 0.005));
    list.add("stand", materials::plastic(),
             build::drum(clamp - frame.x() * (hand * 0.010), frame.x(), 0.022, 0.052, 14, 0.003));
}

/// Cloth stretched in a tube frame.
void add_frame(PartList& list, const Panel& panel, const PanelPose& pose) {
    constexpr double tube_m = 0.010;
    const Frame frame{pose.bottom_m, pose.axes};
    const double half = 0.5 * panel.width_m;
    // The frame's lower tube rests on the floor where the panel starts there.
    // Tilted, its tubes in the middle of the cloth's thickness come a little lower.
    const double rest = tube_m + 0.5 * cloth_thickness_m;
    const bool stands = !pose.support && panel.roll_deg == 0.0;
    const double low = stands && pose.bottom_m.y < rest ? rest - pose.bottom_m.y : 0.0;
    const Vec3 lift(0, low, 0);
    Frame raised = frame;
    raised.origin_m += lift;
    const double top = panel.height_m - low;
    list.add("cloth", working_material(panel, 0.75F),
             board(raised, -half + tube_m, half - tube_m, tube_m * 0.5, top - tube_m * 0.5,
                   cloth_thickness_m));
    const Vec3 middle = raised.z() * (-0.5 * cloth_thickness_m);
    const auto corner = [&](double x, double y) { return raised.at(x, y, 0.0) + middle; };
    for (const double hand : {-1.0, 1.0}) {
        const double x = hand * (half - tube_m * 0.5);
        list.add("frame", materials::aluminium(),
                 build::bar(corner(x, 0), corner(x, top), tube_m, 12));
        const double y = hand < 0.0 ? 0.0 : top;
        list.add("frame", materials::aluminium(),
                 build::bar(corner(-half, y), corner(half, y), tube_m, 12));
        if (!pose.support) add_upright(list, panel, frame, hand);
    }
}

/// The stand below, its arm up to a clamp behind the panel's middle.
std::vector<ScenePart> carrier_parts(const Panel& panel, const SupportPose& pose,
                                     std::uint64_t key) {
    const Support& support = *panel.support;
    constexpr double clamp_m = 0.05;
    PartList list(panel.id, ray_mask::gear);
    const Vec3 behind = pose.tip_m - pose.beam_direction * clamp_m;
    gear::add_legs(list, support, pose);
    gear::add_column(list, support, pose,
                     support.arm ? pose.column_top_m.y - 0.085 : behind.y - 0.02);
    if (support.arm) {
        gear::add_arm(list, support, pose, behind, support.arm->reach_m - 0.06);
        gear::add_counterweight(list, support, pose);
    }
    gear::add_bags(list, support, pose);
    list.add("clamp", materials::black_metal(),
             build::drum(behind, pose.beam_direction, 0.020, clamp_m, 14, 0.003));
    return list.take(ContentKey().add(key).add("carrier").value());
}

std::uint64_t key_of(const Panel& panel, const PanelPose& pose) {
    ContentKey key;
    key.add("panel")
        .add(panel.id)
        .add(static_cast<int>(panel.kind))
        .add(panel.width_m)
        .add(panel.height_m)
        .add(panel.position_m)
        .add(panel.turn_deg)
        .add(panel.fold_deg)
        .add(panel.tilt_deg)
        .add(panel.roll_deg)
        .add(panel.reflectance.rgb)
        .add(static_cast<int>(panel.finish))
        .add(panel.transmission);
    if (!pose.support) return key.value();
    return ContentKey().add(key.value()).add(support_key(*panel.support, *pose.support)).value();
}

} // namespace

std::uint64_t first_part_key(const Panel& panel) {
    return part_key(key_of(panel, pose_panel(panel)), 0);
}

std::vector<ScenePart> panel_parts(const Panel& panel) {
    const PanelPose pose = pose_panel(panel);
    PartList list(panel.id, ray_mask::panel);
    if (panel.kind == PanelKind::v_flat) {
        add_leaf(list, panel, pose, -1.0);
        add_leaf(list, panel, pose, 1.0);
        add_hinge(list, panel, pose);
    } else {
        add_frame(list, panel, pose);
    }
    const std::uint64_t key = key_of(panel, pose);
    std::vector<ScenePart> parts = list.take(key);
    if (!pose.support) return parts;
    for (ScenePart& part : carrier_parts(panel, *pose.support, key))
        parts.push_back(std::move(part));
    return parts;
}

} // namespace keystead
