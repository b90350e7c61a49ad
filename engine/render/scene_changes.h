// What differs between two scenes.
#pragma once

#include "engine/render/shadow_fit.h"
#include "sim/shape/scene.h"

#include <string>
#include <vector>

namespace keystead {

/// Boxes of parts that came, went or changed, by owner.
struct SceneChange {
    std::string owner;
    Box box;
};

std::vector<SceneChange> scene_changes(const Scene& before, const Scene& now);

} // namespace keystead
