// Meshes of one light's support, head and modifier as posed.
#pragma once

#include "sim/light/emitter.h"
#include "sim/shape/scene.h"
#include "sim/support/pose.h"

#include <cstdint>
#include <vector>

namespace keystead {

/// Hash of everything that the look and the light's shape in space follow from: support, head and
/// modifier sizes, pose, grid, hot spot. Power, colour, calibration and masses of unseen things are
/// left out.
std::uint64_t light_key(const Light& light, const SupportPose& pose);

/// The same for a support that carries something else.
std::uint64_t support_key(const Support& support, const SupportPose& pose);

/// Key that the first of `light_parts` will have: equal keys, equal parts.
std::uint64_t first_part_key(const Light& light, const SupportPose& pose, int light_index);

/// Legs, column, arm, clamp, counterweight, bags, head, shell, grid, and the emitting face.
/// `light_index` marks the face.
std::vector<ScenePart> light_parts(const Light& light, const SupportPose& pose,
                                   const Emitter& emitter, int light_index);

} // namespace keystead
