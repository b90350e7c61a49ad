#include "sim/portrait/moved_key.h"
#include "sim/portrait/read.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <tbb/parallel_for.h>

namespace keystead {

namespace {

constexpr double step_deg = 3.0;
constexpr int halvings = 3;

using NameAt = std::function<Pattern(double)>; ///< name when something is changed by so much
using LampAt = std::function<Emitter(double)>; ///< the lamp then, in the head's frame

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

/// The name that the lamp makes over one grid.
NameAt name_on(const FaceChart& chart, const ChartGrid& grid, LampAt lamp_at) {
    return [&chart, &grid, lamp_at = std::move(lamp_at)](double change) {
        const Emitter lamp = lamp_at(change);
        return read_face(chart, grid, lamp, light_on_face(chart, grid, lamp)).pattern;
    };
}

/// How the head stands, and the lamp in the room.
struct Standing {
    const FaceChart& chart;
    const Emitter& emitter;
    double turn_deg, nod_deg, roll_deg;
    Vec3 head_origin_m;
    Emitter turned(double more_turn_deg, double more_nod_deg) const {
        const Mat3 axes = head_rotation(turn_deg + more_turn_deg, nod_deg + more_nod_deg, roll_deg);
        return in_head_frame(chart, emitter, axes, head_origin_m);
    }
};

HoldRange range_of(const FaceChart& chart, const LampAt& lamp_at, Pattern here, double limit) {
    const NameAt fine = name_on(chart, chart.fine, lamp_at);
    const NameAt coarse = name_on(chart, chart.coarse, lamp_at);
    std::array<Edge, 2> edges;
    tbb::parallel_for(std::size_t{0}, edges.size(), [&](std::size_t i) {
        edges[i] = find_edge(fine, coarse, here, i == 0 ? -1.0 : 1.0, limit);
    });
    return {edges[0].turn_deg, edges[1].turn_deg, edges[0].beyond, edges[1].beyond};
}

/// Straight overhead and below, azimuth means nothing.
constexpr double steepest_deg = 89.0;
/// Distances are walked as if a fifth more or less were three degrees: twelve is twice as far.
constexpr double distance_limit = 12.0;

double times_as_far(double change) {
    return std::exp2(change / distance_limit);
}

} // namespace

PatternHold pattern_hold(const FaceChart& chart, const Emitter& emitter, double head_turn_deg,
                         double head_nod_deg, double head_roll_deg, const Vec3& head_origin_m,
                         double limit_deg) {
    const Standing head{chart, emitter, head_turn_deg, head_nod_deg, head_roll_deg, head_origin_m};
    const LampAt turned = [&](double more_deg) { return head.turned(more_deg, 0.0); };
    const Pattern here = name_on(chart, chart.fine, turned)(0.0);
    const HoldRange range = range_of(chart, turned, here, limit_deg);
    return {range.least, range.most, range.below, range.above};
}

PatternHolds pattern_holds(const FaceChart& chart, const Emitter& emitter, double head_turn_deg,
                           double head_nod_deg, double head_roll_deg, const Vec3& head_origin_m,
                           double limit_deg) {
    const Standing head{chart, emitter, head_turn_deg, head_nod_deg, head_roll_deg, head_origin_m};
    const Emitter lamp = head.turned(0.0, 0.0);
    const Vec3 way = lamp.centre_m - chart.landmarks.face;
    const Angles now = angles_of(way);
    const double distance_m = glm::length(way);
    const auto moved = [&](double azimuth_deg, double elevation_deg, double times) {
        const double elevation =
            std::clamp(now.elevation_deg + elevation_deg, -steepest_deg, steepest_deg);
        return moved_key(chart, lamp, {now.azimuth_deg + azimuth_deg, elevation},
                         times * distance_m);
    };
    const std::array<LampAt, 5> lamps{
        [&](double deg) { return head.turned(deg, 0.0); },
        [&](double deg) { return head.turned(0.0, deg); },
        [&](double deg) { return moved(deg, 0.0, 1.0); },
        [&](double deg) { return moved(0.0, deg, 1.0); },
        [&](double change) { return moved(0.0, 0.0, times_as_far(change)); }};
    const Pattern here = name_on(chart, chart.fine, lamps[0])(0.0);
    std::array<HoldRange, 5> ranges;
    tbb::parallel_for(std::size_t{0}, ranges.size(), [&](std::size_t i) {
        ranges[i] = range_of(chart, lamps[i], here, i == 4 ? distance_limit : limit_deg);
    });
    ranges[4].least = distance_m * times_as_far(ranges[4].least);
    ranges[4].most = distance_m * times_as_far(ranges[4].most);
    return {ranges[0], ranges[1], ranges[2], ranges[3], ranges[4]};
}

} // namespace keystead
