// Meshes of one light's support, head and modifier as posed.
#pragma once

#include "sim/light/emitter.h"
#include "sim/shape/scene.h"
#include "sim/support/pose.h"

#include <vector>

namespace keystead {

/// Legs, column, arm, clamp, counterweight, bags, head, shell, grid, and the emitting face.
/// `light_index` marks the face.
std::vector<ScenePart> light_parts(const Light& light, const SupportPose& pose,
                                   const Emitter& emitter, int light_index);

} // namespace keystead
