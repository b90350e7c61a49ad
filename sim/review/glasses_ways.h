// How far a light that shows in glasses must go up on its own column.
#pragma once

#include "sim/review/bench.h"

#include <optional>

namespace keystead {

/// The least rise of its column, in steps of 2 cm, at which neither lens shows the light, aimed as
/// the document says; nothing where column or ceiling end first.
std::optional<double> raise_for_glasses_m(const Bench& bench, std::size_t light);

} // namespace keystead
