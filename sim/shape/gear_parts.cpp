#include "sim/shape/gear_parts.h"

#include "sim/light/grid.h"
#include "sim/shape/build/finish.h"
#include "sim/shape/content_key.h"
#include "sim/shape/gear/gear.h"
#include "sim/shape/materials.h"
#include "sim/transport/ray_scene.h"

namespace keystead {

namespace {

/// Where the column is drawn to: under the arm's socket, or to the yoke's.
double column_end_m(const Support& support, const SupportPose& pose, const gear::HeadPlace& place) {
    constexpr double grip_socket_m = 0.085;
    const double top = support.arm ? pose.column_top_m.y - grip_socket_m : place.stem_m.y - 0.02;
    return std::max(top, 0.5 * pose.hub_m.y);
}

void add_face(PartList& list, const Light& light, const Emitter& emitter, int light_index) {
    Material material = materials::diffuser();
    if (light.modifier.grid) material.finish = Finish::grid;
    ScenePart& face =
        list.add_alone("face", material, build::finished(gear::face_mesh(emitter), 60.0));
    face.mask = ray_mask::emitter;
    face.emitting_light = light_index;
    face.casts = false;
}

std::uint64_t group_key(const Light& light, const SupportPose& pose, int light_index) {
    return ContentKey().add(light_key(light, pose)).add(light.id).add(light_index).value();
}

void add_pose(ContentKey& key, const SupportPose& pose) {
    for (const Vec3& point : {pose.hub_m, pose.column_top_m, pose.tip_m, pose.tail_end_m,
                              pose.arm_direction, pose.emitter_m, pose.counterweight_m})
        key.add(point);
    key.add(pose.head_axes);
    for (const Vec3& foot : pose.feet_m) key.add(foot);
    for (const Vec3& bag : pose.bags_m) key.add(bag);
}

void add_support(ContentKey& key, const Support& support) {
    const Base& base = support.base;
    const Column& column = support.column;
    key.add(static_cast<int>(support.kind)).add(base.turn_deg).add(base.legs).add(base.wheels);
    key.add(base.caster_offset_m).add(base.locked).add(base.foot_radius_m);
    key.add(column.min_height_m).add(column.tube_diameter_m).add(column.sections);
    key.add(support.arm.has_value());
    if (support.arm) {
        key.add(support.arm->length_m).add(support.arm->knob_on_right);
        key.add(support.arm->counterweight ? support.arm->counterweight->mass_kg : -1.0);
    }
    for (const Bag& bag : support.bags)
        key.add(bag.mass_kg)
            .add(static_cast<int>(bag.place))
            .add(bag.leg)
            .add(bag.at_m)
            .add(bag.hanging);
}

void add_modifier(ContentKey& key, const Modifier& modifier) {
    key.add(static_cast<int>(modifier.shape)).add(modifier.width_m).add(modifier.height_m);
    key.add(modifier.inner_width_m).add(modifier.depth_m).add(modifier.lip_m);
    key.add(static_cast<int>(modifier.umbrella)).add(modifier.diffusion_layers);
    key.add(modifier.beam_exponent).add(modifier.cutoff_half_deg).add(modifier.cutoff_edge_deg);
    key.add(modifier.deflector_width_m).add(modifier.barn_doors.has_value());
    if (modifier.barn_doors) {
        const BarnDoors& doors = *modifier.barn_doors;
        key.add(doors.top_deg).add(doors.bottom_deg).add(doors.left_deg).add(doors.right_deg);
        key.add(doors.length_m);
    }
    key.add(modifier.hot_spot).add(modifier.grid.has_value());
    if (!modifier.grid) return;
    const Grid& grid = *modifier.grid;
    key.add(static_cast<int>(grid.cell)).add(grid.cell_width_m).add(cell_ratio(grid));
    key.add(grid.open_fraction).add(grid.wall_reflection);
}

} // namespace

std::uint64_t light_key(const Light& light, const SupportPose& pose) {
    ContentKey key;
    key.add(light.head.length_m).add(light.head.diameter_m);
    add_pose(key, pose);
    add_support(key, light.support);
    add_modifier(key, light.modifier);
    return key.value();
}

std::uint64_t support_key(const Support& support, const SupportPose& pose) {
    ContentKey key;
    add_pose(key, pose);
    add_support(key, support);
    return key.value();
}

std::uint64_t first_part_key(const Light& light, const SupportPose& pose, int light_index) {
    return part_key(group_key(light, pose, light_index), 0);
}

std::vector<ScenePart> light_parts(const Light& light, const SupportPose& pose,
                                   const Emitter& emitter, int light_index) {
    const Support& support = light.support;
    const gear::HeadPlace place = gear::place_head(light, pose, emitter);
    PartList list(light.id, ray_mask::gear);
    gear::add_legs(list, support, pose);
    gear::add_column(list, support, pose, column_end_m(support, pose, place));
    if (support.arm) {
        gear::add_arm(list, support, pose, place.stem_m + place.stem_direction * place.socket_m,
                      support.arm->reach_m - place.radius_m - 0.05);
        gear::add_counterweight(list, support, pose);
    }
    gear::add_bags(list, support, pose);
    gear::add_head(list, place);
    gear::add_cable(list, support, pose, place);
    gear::add_shell(list, light, emitter, place);
    add_face(list, light, emitter, light_index);
    return list.take(group_key(light, pose, light_index));
}

} // namespace keystead
