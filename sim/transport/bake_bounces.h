// From what lights send to the places where paths landed to irradiance at every vertex.
#pragma once

#include "sim/transport/bake_state.h"

namespace keystead {

/// The light that the first `paths` of every point make in `bounces` bounces.
IndirectLight bounced_light(const BakeState& state, std::size_t paths, int bounces);

} // namespace keystead
