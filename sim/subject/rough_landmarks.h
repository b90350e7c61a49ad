// Where a subject's landmarks are, roughly, before its surface is shaped.
#pragma once

#include "sim/set/set.h"
#include "sim/subject/subject.h"

namespace keystead {

/// From the stature alone: eyes at 0.935 of it (ISO 7250-1 eye height over stature, means), seated
/// 0.455 of it above the seat, the rest near. Room frame, looking at +Z.
Landmarks rough_landmarks(const Subject& subject);

} // namespace keystead
