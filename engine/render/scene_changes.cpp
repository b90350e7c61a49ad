#include "engine/render/scene_changes.h"

#include <map>
#include <tuple>

namespace keystead {

namespace {

/// Content of a part: its key, and the mesh itself for scenes that set no keys.
using Identity = std::tuple<std::string, std::string, std::uint64_t, const Mesh*>;

Identity identity_of(const ScenePart& part) {
    return {part.owner, part.part, part.key, part.mesh.get()};
}

bool is_there(const ScenePart& part) {
    return part.mesh && !part.mesh->triangles.empty();
}

} // namespace

std::vector<SceneChange> scene_changes(const Scene& before, const Scene& now) {
    std::vector<SceneChange> changes;
    std::map<Identity, const ScenePart*> gone;
    for (const ScenePart& part : before.parts)
        if (is_there(part)) gone.emplace(identity_of(part), &part);
    for (const ScenePart& part : now.parts)
        if (is_there(part) && gone.erase(identity_of(part)) == 0)
            changes.push_back({part.owner, part.mesh});
    for (const auto& [identity, part] : gone) changes.push_back({part->owner, part->mesh});
    return changes;
}

} // namespace keystead
