#include "sim/studio/scene_rays.h"

#include <cstdint>
#include <map>
#include <string>
#include <vector>

namespace keystead {

namespace {

/// What is moved together stands in one group: each light, each panel and prop, the sitter. What few
/// rays ask about (room, strands) stands alone, so that the others pass it by.
std::vector<std::uint32_t> ray_groups(const Scene& scene) {
    std::map<std::string, std::uint32_t> numbers;
    std::vector<std::uint32_t> groups;
    for (const ScenePart& part : scene.parts) {
        const bool alone = part.part == "stool" || part.mask == ray_mask::strands;
        const auto next = static_cast<std::uint32_t>(numbers.size());
        const std::string group = alone ? part.owner + '/' + part.part : part.owner;
        groups.push_back(numbers.emplace(group, next).first->second);
    }
    return groups;
}

} // namespace

std::shared_ptr<RayScene> scene_rays(const Scene& scene, const RayScene* previous) {
    std::vector<RayMesh> meshes;
    for (const ScenePart& part : scene.parts) meshes.push_back({part.mesh, part.mask});
    return std::make_shared<RayScene>(meshes, ray_groups(scene), previous);
}

} // namespace keystead
