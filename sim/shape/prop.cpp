#include "sim/shape/prop.h"

#include "sim/base/frames.h"
#include "sim/shape/content_key.h"
#include "sim/shape/materials.h"
#include "sim/shape/part_list.h"
#include "sim/transport/ray_scene.h"

#include <limits>
#include <utility>

namespace keystead {

namespace {

/// Middle of the underside of the box around the mesh.
glm::vec3 foot_of(const Mesh& mesh) {
    glm::vec3 low(std::numeric_limits<float>::max()), high(-std::numeric_limits<float>::max());
    for (const glm::vec3& p : mesh.positions_m) low = glm::min(low, p), high = glm::max(high, p);
    return {0.5F * (low.x + high.x), low.y, 0.5F * (low.z + high.z)};
}

} // namespace

std::uint64_t prop_key(const Prop& prop, std::uint64_t mesh_key) {
    return ContentKey()
        .add("prop")
        .add(prop.id)
        .add(mesh_key)
        .add(prop.position_m)
        .add(prop.turn_deg)
        .add(prop.scale)
        .add(prop.reflectance.rgb)
        .value();
}

std::vector<ScenePart> prop_parts(const Prop& prop, const Mesh& mesh, std::uint64_t key) {
    if (mesh.triangles.empty()) return {};
    Mesh placed = mesh;
    const glm::vec3 foot = foot_of(mesh);
    for (glm::vec3& p : placed.positions_m) p = (p - foot) * static_cast<float>(prop.scale);
    placed = transformed(std::move(placed), glm::mat3(head_rotation(prop.turn_deg, 0.0, 0.0)),
                         glm::vec3(prop.position_m));
    PartList list(prop.id, ray_mask::gear);
    list.add_alone("thing", materials::painted(prop.reflectance, 0.6F), std::move(placed));
    return list.take(key);
}

} // namespace keystead
