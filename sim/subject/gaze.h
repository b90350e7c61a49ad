// Where the eyes look: eyeballs turned in the head.
#pragma once

#include "sim/subject/subject.h"

#include <array>

namespace keystead {

/// Eyes turn at most so far from the head's axis; beyond, the head follows (common practice in
/// posing: the whites take over well before the anatomical 45 to 55 degrees).
inline constexpr double most_eye_turn_deg = 35.0;

/// Rotations of the left and the right eyeball in the head frame. `head_axes`: head to room;
/// `eyes_m`: centres of the left and the right eyeball in the room. The shortest turn that leads
/// from straight ahead to the target, cut off at `most_eye_turn_deg` in the same plane.
std::array<Mat3, 2> eye_turns(const Gaze& gaze, const Mat3& head_axes,
                              const std::array<Vec3, 2>& eyes_m, const Vec3& camera_m);

} // namespace keystead
