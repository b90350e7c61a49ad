// How far a light or the head must move for the eyes to see the light.
#pragma once

#include "sim/review/bench.h"

#include <optional>

namespace keystead {

/// What counts as an eye that is lit, per cent of a light's face.
inline constexpr double eye_lit_percent = 50.0;

/// How far a light's column must come down until both eyes see half of it; nothing where eye height
/// is not low enough.
std::optional<double> drop_for_eyes_m(const Bench& bench, std::size_t light);

/// How far the chin must come up for the same, the light staying where it is; nothing within 45°.
std::optional<double> nod_for_eyes_deg(const Bench& bench, std::size_t light);

} // namespace keystead
