// The head moved and a light with it, as one edit.
#pragma once

#include "engine/edit/command.h"
#include "sim/studio/studio.h"
#include "sim/support/follow_head.h"

namespace keystead {

struct FollowedHead {
    Batch command;          ///< head, base, column and aim: one entry of the undo list
    HeadPose head;          ///< where it takes the head
    std::string stopped_by; ///< why no further than that; empty where all of the way was made
};

/// The light keeps its place to the face. Refused for a light that the set lacks, and where not
/// even a tenth of a degree can be made.
Result<FollowedHead> follow_with(const Studio& studio, const std::string& light,
                                 const HeadPose& head);

} // namespace keystead
