// Which crossed edges of a grid's cell belong to one sheet of surface: with a point a sheet,
// surface nets have no edge that four triangles share where two walls pass one cell (Nielson 2004).
#pragma once

#include <array>
#include <cstdint>

namespace keystead::sculpt {

/// Edges are numbered by axis times 8 plus lower corner; corners by bits x, y, z.
struct Sheets {
    std::array<std::uint8_t, 24> of_edge{}; ///< `uncrossed` where no sheet passes
    std::uint8_t count = 0;
};
inline constexpr std::uint8_t uncrossed = 255;

/// `inside`: a bit for each corner.
const Sheets& sheets_of(unsigned inside);

} // namespace keystead::sculpt
