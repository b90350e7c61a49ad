// A lamp carried round a face to another direction, at its distance: where base, column and arm
// have to be. The inverse of what a pose says.
#pragma once

#include "sim/support/pose.h"

#include <string>

namespace keystead {

struct RoundMove {
    Vec3 face_m{0.0};     ///< what it goes round: the nose root
    Vec3 to_lamp{0.0};    ///< where it is wanted: unit, from the face
    Vec3 landmark_m{0.0}; ///< where a light that aims at a landmark looks
};

struct RoundLamp {
    Light light;
    SupportPose pose;
    std::string pushed_back; ///< what keeps it from where it was wanted; empty where it hangs there
};

/// The lamp keeps its distance and its turn to the face. Column and base move; an arm only rises or
/// falls, within its clamp's limits, where the column has come to its end. Beyond a limit (see
/// `broken_limit`) it hangs as near to the wanted height as the limit allows in that azimuth, or
/// else as far as the way there goes. `now` is the light's pose in the set as it is.
RoundLamp lamp_round(const Light& light, const SupportPose& now, const Room& room,
                     const RoundMove& move);

} // namespace keystead
