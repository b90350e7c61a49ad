// What one pupil of the posed sitter sees of one light.
#pragma once

#include "sim/meter/probe_memory.h"
#include "sim/review/eyes.h"
#include "sim/studio/studio.h"

#include <optional>
#include <vector>

namespace keystead {

/// An eye of the sitter in the room.
struct PosedEye {
    const char* name = "left"; ///< the subject's
    Vec3 pupil_m{0.0};         ///< front of the cornea
    Vec3 eyeball_m{0.0};
    Vec3 gaze{0.0, 0.0, 1.0}; ///< unit
};
std::vector<PosedEye> eyes_of(const Landmarks& marks);

/// Of the face of a light, by what each part of it sends to the pupil on a plate that faces it: the
/// share seen, and what hides the rest. Empty where it sends nothing that way. For a light that is
/// not where the studio has it: its own gear, which still stands there, hides nothing.
std::optional<EyeLight> eye_light(const Studio& studio, const PosedEye& eye,
                                  const Emitter& emitter);

/// The same from memory where nothing between light and eye moved.
std::optional<EyeLight> eye_light(const Studio& studio, const PosedEye& eye, std::size_t light,
                                  ProbeMemory& memory);

} // namespace keystead
