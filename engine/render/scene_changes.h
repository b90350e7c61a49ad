// What differs between two scenes.
#pragma once

#include "sim/shape/scene.h"

#include <memory>
#include <string>
#include <vector>

namespace keystead {

/// A part that came, went or changed.
struct SceneChange {
    std::string owner;
    std::shared_ptr<const Mesh> mesh;
};

std::vector<SceneChange> scene_changes(const Scene& before, const Scene& now);

} // namespace keystead
