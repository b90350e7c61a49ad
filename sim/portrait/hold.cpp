#include "sim/portrait/read.h"

#include <algorithm>
#include <cmath>
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

/// Turn after so many steps, not past the limit.
double after_steps(int steps, double limit_deg) {
    return std::min(steps * step_deg, limit_deg);
}

/// First step from `start` on at which the name differs from `same`; one past `last` where none
/// does.
int first_change(const NameAt& name, Pattern same, int start, int last, double direction,
                 double limit_deg) {
    int step = start;
    while (step <= last && name(direction * after_steps(step, limit_deg)) == same) ++step;
    return step;
}

/// The coarse chart finds where to look, the fine one decides.
Edge find_edge(const NameAt& fine, const NameAt& coarse, Pattern same, double direction,
               double limit_deg) {
    const int last = std::max(1, static_cast<int>(std::ceil(limit_deg / step_deg)));
    int start = 1;
    if (coarse(0.0) == same)
        start = std::max(1, first_change(coarse, same, 1, last, direction, limit_deg) - 2);
    // Where the coarse chart ran ahead, the name may have changed before its starting point.
    if (start > 1 && fine(direction * after_steps(start, limit_deg)) != same) start = 1;
    const int changed = first_change(fine, same, start, last, direction, limit_deg);
    if (changed > last) return {direction * limit_deg, same};
    double inside = after_steps(changed - 1, limit_deg);
    double outside = after_steps(changed, limit_deg);
    Pattern beyond = fine(direction * outside);
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
