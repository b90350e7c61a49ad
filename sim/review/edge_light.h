// A light that does not exist yet: where a small gridded head behind the sitter would edge the
// hair.
#pragma once

#include "sim/review/outline.h"

#include <optional>
#include <string>
#include <vector>

namespace keystead {

struct EdgeLight {
    Light light;       ///< complete: stand, place, power, aim
    std::string words; ///< "0.9 m behind and 0.8 m to camera left, 2.3 m up"
    bool into_lens = false;
    double stops_from_key = 0.0; ///< flat at the face toward it, nothing in the way
};

/// The first place that stays out of the picture, under the ceiling, in the room and clear of other
/// stands, whose support stands, and from which catalogue gear makes all of `edges` that it reaches
/// part from what is behind them (`edges[0]` always) and none of `others` merge; nothing where
/// there is none. A light that does not shine into the lens is preferred.
std::optional<EdgeLight> new_edge_light(const Bench& bench, const std::vector<Edge>& edges,
                                        const std::vector<Edge>& others);

/// The same for a head on a low stand behind the sitter that lights what hangs there.
std::optional<EdgeLight> new_background_light(const Bench& bench, const std::vector<Edge>& edges,
                                              const std::vector<Edge>& others);

} // namespace keystead
