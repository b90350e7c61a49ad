// A light that keeps its place to the face while the head moves: the pattern goes with it.
//
// The head moves about the neck, and with it the lamp: what the face sees of it, its direction,
// distance and turn to the face, stays. Base, column and aim are set so that it hangs there; arm
// and modifier stay as they are. Exact while the head only turns. With nod or roll a lamp that is
// feathered, or aimed at a point off the middle of its way, keeps its direction within a few
// degrees only: feather turns about the vertical.
#pragma once

#include "sim/support/pose.h"

#include <string>

namespace keystead {

/// As in the document: turn from the camera's axis, + nose toward camera right.
struct HeadPose {
    double turn_deg = 0.0, nod_deg = 0.0, roll_deg = 0.0;
};

struct HeadMove {
    Vec3 neck_m{0.0}; ///< the head moves about this point of the room
    HeadPose from, to;
};

struct FollowedLight {
    Light light;            ///< placed for `head`
    HeadPose head;          ///< where the move ended, or the last pose the support can follow to
    double share = 1.0;     ///< of the whole move
    std::string stopped_by; ///< what a step further would break; empty where nothing stopped it
};

/// `now` is the light's pose in the set as it is. Limits are the column's heights and the room's
/// walls, floor and ceiling, for feet, arm and the modifier's edges.
FollowedLight follow_head(const Light& light, const SupportPose& now, const Room& room,
                          const HeadMove& move);

} // namespace keystead
