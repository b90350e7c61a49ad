// Two sets side by side: their pictures, and below them what differs.
#pragma once

#include "engine/render/still.h"
#include "sim/review/difference.h"

#include <string>
#include <vector>

namespace keystead {

struct ComparisonSide {
    std::string name;
    RgbaImage picture;
};

/// Both pictures at the same height, their names above, the table below.
RgbaImage draw_comparison(const ComparisonSide& first, const ComparisonSide& second,
                          const std::vector<Difference>& table);

} // namespace keystead
