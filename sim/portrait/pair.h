// What the trade calls a key and a second light together, by where both stand about the face.
#pragma once

#include "sim/base/frames.h"

namespace keystead {

enum class Pair {
    none,
    clamshell,      ///< key above, fill below, both on the face's mid-plane
    fill_on_axis,   ///< second light beside the lens: no shadow of its own shows
    key_and_kicker, ///< second behind to one side, no higher than a little over the face
    key_and_hair,   ///< second above and behind
};
const char* name_of(Pair pair); ///< as in the report; empty for none

/// Where one light stands: face-relative, how far off the lens as the face sees both, and how
/// strong beside the key.
struct PairLight {
    Angles face;
    double off_lens_deg = 90.0;
    double stops_from_key = 0.0;
};

/// Source of the names: common practice; the limits in degrees are judgements of ours.
Pair pair_of(const Angles& key, const PairLight& other);

} // namespace keystead
