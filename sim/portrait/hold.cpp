#include "sim/portrait/read.h"

#include <functional>

namespace keystead {

namespace {

constexpr double step_deg = 3.0;
constexpr int halvings = 3;

using NameAt = std::function<Pattern(double)>; ///< name when the head is turned by so much more

struct Edge {
    double turn_deg = 0.0; ///< how far the name holds
    Pattern beyond = Pattern::none;
};

/// First multiple of the step at which `name` differs from `same`; the limit where none does.
double first_change(const NameAt& name, Pattern same, double from_deg, double direction,
                    double limit_deg) {
    for (double turn = from_deg; turn < limit_deg; turn += step_deg)
        if (name(direction * turn) != same) return turn;
    return limit_deg;
}

/// The coarse chart finds where to look, the fine one decides.
Edge find_edge(const NameAt& fine, const NameAt& coarse, Pattern same, double direction,
               double limit_deg) {
    double start = step_deg;
    if (coarse(0.0) == same)
        start = std::max(step_deg,
                         first_change(coarse, same, step_deg, direction, limit_deg) - 2 * step_deg);
    // Where the coarse chart ran ahead, the name may have changed before its starting point.
    if (start > step_deg && fine(direction * start) != same) start = step_deg;
    const double changed = first_change(fine, same, start, direction, limit_deg + step_deg);
    double outside = std::min(changed, limit_deg);
    Pattern beyond = fine(direction * outside);
    if (beyond == same) return {direction * limit_deg, same};
    double inside = std::max(0.0, changed - step_deg);
    for (int i = 0; i < halvings; ++i) {
        const double middle = 0.5 * (inside + outside);
        const Pattern found = fine(direction * middle);
        if (found == same) {
            inside = middle;
        } else {
            outside = middle;
            beyond = found;
        }
    }
    return {direction * inside, beyond};
}

} // namespace

PatternHold pattern_hold(const FaceChart& chart, const Emitter& emitter, double head_turn_deg,
                         double head_nod_deg, double head_roll_deg, const Vec3& head_origin_m,
                         double limit_deg) {
    const auto name_on = [&](const ChartGrid& grid) {
        return [&, &grid = grid](double more_deg) {
            const Mat3 axes = head_rotation(head_turn_deg + more_deg, head_nod_deg, head_roll_deg);
            const Emitter lamp = in_head_frame(chart, emitter, axes, head_origin_m);
            return read_face(chart, grid, lamp, light_on_face(chart, grid, lamp)).pattern;
        };
    };
    const NameAt fine = name_on(chart.fine), coarse = name_on(chart.coarse);
    const Pattern here = fine(0.0);
    const Edge below = find_edge(fine, coarse, here, -1.0, limit_deg);
    const Edge above = find_edge(fine, coarse, here, 1.0, limit_deg);
    return {below.turn_deg, above.turn_deg, below.beyond, above.beyond};
}

} // namespace keystead
