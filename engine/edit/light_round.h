// A light carried round the face, as one edit.
#pragma once

#include "engine/edit/command.h"
#include "sim/base/frames.h"
#include "sim/studio/studio.h"

namespace keystead {

struct LightRound {
    Batch command;    ///< base, column, arm and aim: one entry of the undo list
    Angles direction; ///< from the nose root as the head has it, where the lamp comes to hang
    std::string pushed_back; ///< why not where it was wanted; empty where it does
};

/// To `wanted`, a direction from the nose root in the head's frame, at the distance at which it
/// stands in the studio's set. Refused for a light that the set lacks.
Result<LightRound> carry_light_round(const Studio& studio, const std::string& light, Angles wanted);

} // namespace keystead
