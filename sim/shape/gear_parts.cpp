#include "sim/shape/gear_parts.h"

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

} // namespace

std::vector<ScenePart> light_parts(const Light& light, const SupportPose& pose,
                                   const Emitter& emitter, int light_index) {
    const Support& support = light.support;
    const gear::HeadPlace place = gear::place_head(light, pose, emitter);
    PartList list(light.id, ray_mask::gear);
    gear::add_legs(list, support, pose);
    gear::add_column(list, support, pose, column_end_m(support, pose, place));
    if (support.arm) {
        gear::add_arm(list, support, pose, place.stem_m + place.stem_direction * 0.03);
        gear::add_counterweight(list, support, pose);
    }
    gear::add_bags(list, support, pose);
    gear::add_head(list, place);
    gear::add_cable(list, support, pose, place);
    gear::add_shell(list, light, emitter, place);
    add_face(list, light, emitter, light_index);
    return list.take(light_key(light, pose, emitter, light_index));
}

} // namespace keystead
