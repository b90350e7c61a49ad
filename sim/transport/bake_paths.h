// The rays of a bake: where paths from its points land, and what every light sends there.
#pragma once

#include "sim/transport/bake_memory.h"

#include <atomic>

namespace keystead {

/// A bake under way.
struct BakeWork {
    const light_path::World& world;
    const std::vector<light_path::Source>& sources;
    const BakeOptions& options;
    const Continuation& going;
    BakeState& state;
    std::atomic<std::size_t> traced{0}; ///< rays
    std::atomic<bool> stopped{false};
};

/// Paths go in sets of so many, each spread evenly over the half space.
inline constexpr std::size_t path_set = 16;

/// Traces paths number `begin` to `end` (whole sets) of every point, or takes over what the old
/// state has of them. Stops early when the options say so.
void trace_paths(BakeWork& work, std::size_t begin, std::size_t end);

} // namespace keystead
