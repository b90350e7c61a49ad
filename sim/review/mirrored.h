// What eyes and glasses may mirror: faces of lights, and panels that are lit.
#pragma once

#include "sim/review/bench.h"

#include <cstdint>
#include <vector>

namespace keystead {

struct Mirrored {
    Emitter face; ///< a panel's leaf: a rectangle of exitance 1
    bool panel = false;
    double luminance = 0.0; ///< cd·s/m², mean over the face toward the sitter; 0: off
    std::uint64_t key = 0;  ///< of its geometry
};

/// All of them, lit or not: what a change of power brings up has been looked for before.
std::vector<Mirrored> mirrored_things(const Bench& bench, const std::vector<PanelReview>& panels);

/// How bright a mirror image comes out over black (see tone.h).
double mirror_tone(const Bench& bench, const Mirrored& thing, double reflectance);

} // namespace keystead
