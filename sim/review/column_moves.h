// A light's face after its column was set to another height, all else as the document says.
#pragma once

#include "sim/review/review.h"
#include "sim/studio/studio.h"

#include <optional>

namespace keystead {

/// With the column so much higher (less: lower), aimed as the document says.
Emitter with_column_raised(const Studio& studio, std::size_t light, double rise_m);

/// That change of the document, to the centimetre toward where it goes; nothing where the column
/// does not reach.
std::optional<Edit> column_edit(const Light& light, double rise_m);

} // namespace keystead
