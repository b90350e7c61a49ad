// Where words stand on a pattern chart: names of areas, and what is said of the key.
#pragma once

#include "engine/plate/chart_paint.h"
#include "engine/ui/lettering.h"

#include <glm/glm.hpp>
#include <optional>
#include <string>
#include <vector>

namespace keystead {

/// An area's name, where it is written.
struct PlacedName {
    std::string text;
    ui::Lettering::Face face = ui::Lettering::Face::small;
    Pattern name = Pattern::none;
    glm::vec2 corner{0.0F}, size{0.0F};      ///< top left
    std::optional<glm::vec2> leader_to = {}; ///< into the area, of a name that stands outside it
};

/// As large as the area allows, out of the key's way; beside it with a leader where it is too
/// small.
std::vector<PlacedName> placed_names(const ui::Lettering& letters, const ChartFrame& frame,
                                     float scale);

struct KeyLabel {
    std::string words;
    glm::vec2 corner{0.0F}; ///< top left
};

/// Beside the key's dot, else below or above it: where it covers no name and stays on the chart.
KeyLabel key_label(const ui::Lettering& letters, const ChartFrame& frame,
                   const std::vector<PlacedName>& names, float scale);

} // namespace keystead
