// The mains lead: from the lamp's back along arm and column to the floor, and away from the sitter.

#include "sim/shape/build/sweep.h"
#include "sim/shape/gear/gear.h"
#include "sim/shape/materials.h"

#include <algorithm>
#include <cmath>

namespace keystead::gear {

namespace {

constexpr double cable_radius_m = 0.0045;
constexpr double floor_run_m = 0.75;

/// Between two legs, on the side away from the middle of the room's floor where the sitter is.
Vec3 way_out(const SupportPose& pose, const Base& base) {
    const Vec3 axis(pose.hub_m.x, 0, pose.hub_m.z);
    const Vec3 away = glm::length(axis) > 1e-6 ? glm::normalize(axis) : Vec3(0, 0, -1);
    Vec3 best = away;
    double best_fit = -2.0;
    const int legs = std::max(1, base.legs);
    for (int gap = 0; gap < legs; ++gap) {
        const Vec3 between = direction_from({base.turn_deg + 360.0 * (gap + 0.5) / legs, 0.0});
        const double fit = glm::dot(between, away);
        if (fit <= best_fit) continue;
        best_fit = fit;
        best = between;
    }
    return best;
}

/// A lead hanging between two points: a parabola that sags by a quarter of what it spans.
std::vector<Vec3> slack(const Vec3& from_m, const Vec3& to_m) {
    constexpr int pieces = 7;
    const double span = glm::distance(Vec2(from_m.x, from_m.z), Vec2(to_m.x, to_m.z));
    const double sag = 0.06 + 0.25 * span;
    std::vector<Vec3> points;
    points.reserve(pieces + 1);
    for (int i = 0; i <= pieces; ++i) {
        const double t = static_cast<double>(i) / pieces;
        points.push_back(glm::mix(from_m, to_m, t) - Vec3(0, 4.0 * sag * t * (1.0 - t), 0));
    }
    return points;
}

} // namespace

void add_cable(PartList& list, const Support& support, const SupportPose& pose,
               const HeadPlace& place) {
    const Vec3 out = way_out(pose, support.base);
    const Vec3 side = glm::cross(Vec3(0, 1, 0), out);
    const Vec3 axis(pose.hub_m.x, 0, pose.hub_m.z);
    const double beside = 0.5 * support.column.tube_diameter_m + 0.010;
    const Vec3 socket =
        place.front.at(0, 0, -place.length_m) + place.stem_direction * (0.55 * place.radius_m);
    const double tie = std::min(0.62 * pose.column_top_m.y, socket.y - 0.10);
    std::vector<Vec3> points;
    if (tie > pose.hub_m.y + 0.25) {
        const Vec3 tied = axis + (out * 0.8 + side * 0.6) * beside + Vec3(0, tie, 0);
        points = slack(socket, tied);
        points.push_back(axis + (out + side * 0.3) * (beside + 0.03) +
                         Vec3(0, 0.5 * (tie + pose.hub_m.y), 0));
        points.push_back(axis + (out * 0.9 - side * 0.4) * (beside + 0.012) +
                         Vec3(0, pose.hub_m.y + 0.06, 0));
    } else {
        points = {socket, socket - place.front.z() * 0.05 - Vec3(0, 0.03, 0)};
    }
    points.push_back(axis + out * 0.16 + Vec3(0, 0.28 * std::min(pose.hub_m.y, 0.3), 0));
    for (const auto& [ahead, aside] : {std::pair(0.32, 0.02), std::pair(0.50, 0.10),
                                       std::pair(0.62, -0.06), std::pair(floor_run_m, 0.03)})
        points.push_back(axis + out * ahead + side * aside + Vec3(0, cable_radius_m, 0));
    std::vector<Vec3> path = build::smooth_path(points, 3);
    for (Vec3& point : path) point.y = std::max(point.y, cable_radius_m * 1.02);
    list.add("cable", materials::rubber(), build::rod(path, cable_radius_m, 5));
}

} // namespace keystead::gear
