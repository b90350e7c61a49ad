// What an earlier bake leaves for the one of an edited scene.
#pragma once

#include "sim/transport/bake_state.h"

#include <span>

namespace keystead {

/// Points of a mesh and who shares them; `old` (may be null) is asked first.
std::shared_ptr<const BakeLayout> layout_of(const std::shared_ptr<const Mesh>& mesh,
                                            double spacing_m, const BakeState* old);

/// What an emitter sends, apart from how much.
std::uint64_t geometry_key(const Emitter& emitter);

/// Names, boxes and layouts of a scene's parts; no landings yet.
void lay_out(const Scene& scene, const BakeOptions& options, const BakeState* old,
             BakeState& state);

/// How a new state continues an old one.
struct Continuation {
    const BakeState* old = nullptr;      ///< null: from nothing
    std::vector<int> old_part;           ///< by part: its unchanged self in the old state, or -1
    std::vector<std::uint32_t> new_part; ///< by old part; `ray_miss` where it is gone
    std::vector<int> old_emitter;        ///< by emitter: its unchanged self, or -1
    ChangedPlaces changed;               ///< old and new boxes of what changed
};
Continuation continuation_of(const BakeState* old, const BakeState& state);

} // namespace keystead
