#include "sim/portrait/measure.h"

#include <algorithm>
#include <cmath>
#include <queue>

namespace keystead {

namespace {

/// Where the brightest place of the far cheek is looked for.
constexpr double cheek_inner_mm = -12.0, cheek_outer_mm = -52.0, cheek_above_mouth_mm = 20.0;
/// The lit side begins here, and the far side of the head beyond this angle.
constexpr double lit_side_mm = 3.0, far_side_deg = -88.0;
/// A black ring: stops are given up to here.
constexpr double most_stops = 12.0;

struct Step {
    double level;
    std::size_t cell;
    bool operator<(const Step& other) const {
        // Ties by cell, so that the way found never depends on the queue's inner order.
        return level != other.level ? level < other.level : cell < other.cell;
    }
};

/// Calls `visit` with every cell that touches `cell` by a side or a corner.
template <class Visit>
void for_neighbours(const ChartGrid& grid, std::size_t cell, Visit visit) {
    const int column = grid.column_of(cell), row = grid.row_of(cell);
    for (int r = std::max(0, row - 1); r <= std::min(grid.rows - 1, row + 1); ++r)
        for (int c = std::max(0, column - 1); c <= std::min(grid.columns - 1, column + 1); ++c)
            if (r != row || c != column) visit(grid.cell_at(c, r));
}

bool on_far_cheek(const FaceLines& lines, const MirroredChart& view, std::size_t cell) {
    const double x = view.x(cell), y = view.y(cell);
    const Region region = view.grid().region[cell];
    return x > cheek_outer_mm && x < cheek_inner_mm && y < lines.lid_mm &&
           y > lines.mouth_mm + cheek_above_mouth_mm && region != Region::nose &&
           region != Region::hair;
}

bool is_exit(const FaceLines& lines, const MirroredChart& view, std::size_t cell) {
    return view.x(cell) > lit_side_mm || view.y(cell) < lines.mouth_mm ||
           view.angle_deg(cell) < far_side_deg;
}

Enclosure brightest_far_cheek(const FaceLines& lines, const MirroredChart& view,
                              const std::vector<double>& level) {
    Enclosure found;
    for (std::size_t cell = 0; cell < level.size(); ++cell) {
        if (view.grid().covered[cell] == 0 || !on_far_cheek(lines, view, cell)) continue;
        if (level[cell] <= found.peak) continue;
        found.peak = level[cell];
        found.cell = cell;
    }
    return found;
}

/// Flood from the peak over cells that `keep` accepts.
template <class Keep>
std::vector<std::size_t> flood(const ChartGrid& grid, std::size_t start, Keep keep) {
    std::vector<std::uint8_t> seen(grid.size(), 0);
    std::vector<std::size_t> found{start};
    seen[start] = 1;
    for (std::size_t i = 0; i < found.size(); ++i)
        for_neighbours(grid, found[i], [&](std::size_t next) {
            if (seen[next] != 0 || !keep(next)) return;
            seen[next] = 1;
            found.push_back(next);
        });
    return found;
}

} // namespace

double Enclosure::stops() const {
    if (peak <= 0.0) return 0.0;
    return std::min(most_stops, std::log2(peak / std::max(ring, peak * std::exp2(-most_stops))));
}

Enclosure find_enclosure(const FaceLines& lines, const MirroredChart& view,
                         const std::vector<double>& level) {
    const ChartGrid& grid = view.grid();
    Enclosure found = brightest_far_cheek(lines, view, level);
    if (found.peak <= 0.0) return found;
    std::vector<std::uint8_t> seen(grid.size(), 0);
    std::priority_queue<Step> front;
    front.push({found.peak, found.cell});
    seen[found.cell] = 1;
    double lowest = found.peak;
    while (!front.empty()) {
        const Step step = front.top();
        front.pop();
        lowest = std::min(lowest, step.level);
        if (is_exit(lines, view, step.cell)) {
            found.ring = lowest;
            return found;
        }
        for_neighbours(grid, step.cell, [&](std::size_t next) {
            if (seen[next] != 0 || grid.covered[next] == 0 || view.y(next) > lines.lid_mm) return;
            seen[next] = 1;
            front.push({level[next], next});
        });
    }
    return found; // no way out at all: the ring is black
}

LitPatch measure_patch(const FaceLines& lines, const MirroredChart& view,
                       const std::vector<double>& level, const Enclosure& enclosure) {
    const ChartGrid& grid = view.grid();
    LitPatch patch;
    patch.peak = enclosure.peak;
    patch.ring_stops = enclosure.stops();
    if (enclosure.peak <= 0.0) return patch;
    const auto bright = [&](std::size_t cell) {
        return grid.covered[cell] != 0 && view.y(cell) <= lines.lid_mm &&
               level[cell] > 0.5 * enclosure.peak;
    };
    double left = 1e9, right = -1e9, bottom = 1e9, top = -1e9;
    for (const std::size_t cell : flood(grid, enclosure.cell, bright)) {
        patch.area_mm2 += grid.area_mm2[cell];
        left = std::min(left, view.x(cell));
        right = std::max(right, view.x(cell));
        bottom = std::min(bottom, view.y(cell));
        top = std::max(top, view.y(cell));
    }
    patch.width_mm = right - left + grid.cell_mm;
    patch.height_mm = top - bottom + grid.cell_mm;
    return patch;
}

} // namespace keystead
