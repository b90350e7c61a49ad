// Which layers an edit makes stale.
#pragma once

#include "engine/render/scene_changes.h"
#include "sim/studio/studio.h"

#include <span>
#include <vector>

namespace keystead {

/// What must be done again after an edit.
struct Restart {
    bool picture = false;     ///< something visible changed: G-buffers and every layer
    std::vector<char> lights; ///< one a light: its layer
};

/// A light's own change restarts its layer. Gear of a light that moves out of sight restarts
/// another light only where it can come between that light and what is visible; anything else that
/// changes restarts everything. `sight` is the view's clip matrix, `seen_m` places all over what
/// it shows.
Restart restarts_after(const Studio& before, const Studio& now,
                       std::span<const SceneChange> changes, const glm::mat4& sight,
                       std::span<const glm::vec3> seen_m);

} // namespace keystead
