// A scene's rays: which of its parts stand in one group.
#pragma once

#include "sim/shape/scene.h"
#include "sim/transport/ray_scene.h"

#include <memory>

namespace keystead {

/// Ids are places in `scene.parts`. Groups that `previous` (may be null) has are shared with it.
std::shared_ptr<RayScene> scene_rays(const Scene& scene, const RayScene* previous);

} // namespace keystead
