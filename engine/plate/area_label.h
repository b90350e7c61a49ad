// Where a name fits into an area of a pattern map.
#pragma once

#include "sim/portrait/pattern_map.h"

#include <glm/glm.hpp>
#include <optional>

namespace keystead {

/// Column and row of the middle of the roomiest box of that half size, in places, that lies wholly
/// in the area; nothing where none does. Of boxes alike the one nearest the area's middle.
std::optional<glm::ivec2> room_for(const PatternMap& map, const NamedArea& area, int half_columns,
                                   int half_rows);

} // namespace keystead
