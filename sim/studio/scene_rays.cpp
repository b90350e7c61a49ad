#include "sim/studio/scene_rays.h"

#include <algorithm>
#include <cstdint>
#include <map>
#include <string>
#include <utility>
#include <vector>

namespace keystead {

namespace {

constexpr const char* sitter = "subject";

std::string group_of(const ScenePart& part, const Movers& movers) {
    // Few rays ask about strands and the room: the others pass them by.
    if (part.mask == ray_mask::strands) return "strands";
    if (part.mask == ray_mask::room) return "room";
    if (part.owner == sitter) return sitter;
    return movers.count(part.owner) != 0 ? "movers" : "rest";
}

using Content = std::pair<const Mesh*, std::uint32_t>;

std::map<std::string, std::vector<Content>> contents_by_owner(const Scene& scene) {
    std::map<std::string, std::vector<Content>> contents;
    for (const ScenePart& part : scene.parts)
        contents[part.owner].emplace_back(part.mesh.get(), part.mask);
    return contents;
}

} // namespace

std::shared_ptr<RayScene> scene_rays(const Scene& scene, const Movers& movers,
                                     const RayScene* previous) {
    std::map<std::string, std::uint32_t> numbers;
    std::vector<RayMesh> meshes;
    std::vector<std::uint32_t> groups;
    for (const ScenePart& part : scene.parts) {
        meshes.push_back({part.mesh, part.mask});
        const auto next = static_cast<std::uint32_t>(numbers.size());
        groups.push_back(numbers.emplace(group_of(part, movers), next).first->second);
    }
    return std::make_shared<RayScene>(meshes, groups, previous);
}

Movers movers_after(const Scene& before, const Scene& now, const Movers& earlier) {
    Movers changed;
    auto gone = contents_by_owner(before);
    for (auto& [owner, content] : contents_by_owner(now)) {
        const auto old = gone.find(owner);
        if (old == gone.end() || old->second != content) changed.insert(owner);
    }
    changed.erase(sitter); // stands apart anyway
    const bool joined =
        std::includes(earlier.begin(), earlier.end(), changed.begin(), changed.end());
    return joined ? earlier : changed;
}

} // namespace keystead
