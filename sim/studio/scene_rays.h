// A scene's rays: which of its parts stand in one group.
#pragma once

#include "sim/shape/scene.h"
#include "sim/transport/ray_scene.h"

#include <memory>
#include <set>
#include <string>

namespace keystead {

/// Owners whose parts stand in a group of their own, since they are on the move.
using Movers = std::set<std::string>;

/// Ids are places in `scene.parts`. Four groups: the sitter, strands of hair, the room, and all the
/// rest but for the movers, which stand in a fifth: many small trees cost every ray some time, and
/// a tree is built again only for what it holds. Groups that `previous` (may be null) has are
/// shared with it.
std::shared_ptr<RayScene> scene_rays(const Scene& scene, const Movers& movers,
                                     const RayScene* previous);

/// Who is on the move after an edit: the owners that differ between the scenes, but the earlier
/// movers as long as nobody else joins them, so that the rest is built once a drag.
Movers movers_after(const Scene& before, const Scene& now, const Movers& earlier);

} // namespace keystead
