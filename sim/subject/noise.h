// Smooth repeatable noise.
#pragma once

#include "sim/base/vec.h"

namespace keystead::sculpt {

/// Value noise on the integer lattice, quintic interpolation; about -1..1, the same everywhere.
double value_noise(const Vec3& point);

} // namespace keystead::sculpt
