#include "sim/support/follow_head.h"

#include "sim/base/frames.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <utility>

namespace keystead {

namespace {

HeadPose between(const HeadMove& move, double share) {
    const auto mixed = [share](double from, double to) { return from + share * (to - from); };
    return {mixed(move.from.turn_deg, move.to.turn_deg), mixed(move.from.nod_deg, move.to.nod_deg),
            mixed(move.from.roll_deg, move.to.roll_deg)};
}

Mat3 axes_of(const HeadPose& head) {
    return head_rotation(head.turn_deg, head.nod_deg, head.roll_deg);
}

/// Azimuth by which a horizontal look along `way` changes; none where it has no horizontal part.
double yaw_deg(const Mat3& turn, const Vec3& way) {
    constexpr double least_m = 0.01;
    const Vec3 after = turn * way;
    if (std::hypot(way.x, way.z) < least_m || std::hypot(after.x, after.z) < least_m) return 0.0;
    return wrapped_deg(angles_of(after).azimuth_deg - angles_of(way).azimuth_deg);
}

/// What the head carries along when it moves.
bool on_head(const std::string& landmark) {
    return landmark != "chest";
}

void set_aim(Aim& aim, const Mat3& turn, const Vec3& neck_m, const Vec3& beam) {
    if (aim.kind == AimKind::landmark && on_head(aim.landmark)) return;
    if (aim.kind == AimKind::point) {
        aim.point_m = neck_m + turn * (aim.point_m - neck_m);
        return;
    }
    const Angles straight = angles_of(beam);
    aim.kind = AimKind::angles;
    aim.azimuth_deg = wrapped_deg(straight.azimuth_deg + aim.feather_deg);
    aim.elevation_deg = straight.elevation_deg;
}

/// A light, and how it would hang.
struct Moved {
    Light light;
    SupportPose pose;
};

Moved moved(const Light& light, const SupportPose& now, const HeadMove& move, double share) {
    const Mat3 turn = axes_of(between(move, share)) * glm::transpose(axes_of(move.from));
    const Vec3 emitter = move.neck_m + turn * (now.emitter_m - move.neck_m);
    const Vec3 beam = turn * now.beam_direction;
    const double yaw = yaw_deg(turn, now.emitter_m - move.neck_m);
    const Vec3 arm = head_rotation(yaw, 0.0, 0.0) * (now.tip_m - now.column_top_m);
    const Vec3 top = emitter - face_ahead_m(light) * beam - arm;
    Moved result{light, {}};
    Support& support = result.light.support;
    support.base.position_m = {top.x, top.z};
    support.base.turn_deg = wrapped_deg(support.base.turn_deg + yaw);
    support.column.height_m = top.y;
    set_aim(result.light.aim, turn, move.neck_m, beam);
    AimTarget along;
    along.is_direction = true;
    along.direction = beam;
    result.pose = pose_support(result.light, along);
    return result;
}

std::string metres(double length_m) {
    std::array<char, 32> text{};
    std::snprintf(text.data(), text.size(), "%.2f m", length_m);
    return text.data();
}

/// Middles of the modifier's edges.
std::array<Vec3, 4> edges_of(const Light& light, const SupportPose& pose) {
    const Vec3 across = 0.5 * light.modifier.width_m * pose.head_axes[0];
    const double height_m = light.modifier.shape == ModifierShape::rectangle
                                ? light.modifier.height_m
                                : light.modifier.width_m;
    const Vec3 up = 0.5 * height_m * pose.head_axes[1];
    return {pose.emitter_m - across, pose.emitter_m + across, pose.emitter_m - up,
            pose.emitter_m + up};
}

/// How the room is in a point's way; empty where it is not.
std::string past_walls(const Room& room, const std::string& what, const Vec3& point_m) {
    constexpr double touching_m = 1e-6;
    const std::pair<double, const char*> out[] = {
        {-room.left_of_subject_m - point_m.x, "left of the left wall"},
        {point_m.x - (room.width_m - room.left_of_subject_m), "right of the right wall"},
        {-room.behind_subject_m - point_m.z, "behind the back wall"},
        {point_m.z - (room.depth_m - room.behind_subject_m), "beyond the wall behind the camera"},
        {point_m.y - room.ceiling_m, "above the ceiling"},
        {-point_m.y, "below the floor"}};
    for (const auto& [distance_m, where] : out)
        if (distance_m > touching_m) return what + " would be " + metres(distance_m) + " " + where;
    return {};
}

std::string broken_limit(const Moved& moved, const Room& room) {
    const Column& column = moved.light.support.column;
    constexpr double least_m = 1e-6;
    if (column.height_m > column.max_height_m + least_m)
        return "the column ends at " + metres(column.max_height_m) + ", " +
               metres(column.height_m) + " would be needed";
    if (column.height_m < column.min_height_m - least_m)
        return "the column goes down to " + metres(column.min_height_m) + ", " +
               metres(column.height_m) + " would be needed";
    for (const Vec3& foot : moved.pose.feet_m)
        if (std::string problem = past_walls(room, "a foot", foot); !problem.empty())
            return problem;
    for (const Vec3& end : {moved.pose.column_top_m, moved.pose.tip_m, moved.pose.tail_end_m})
        if (std::string problem = past_walls(room, "the arm", end); !problem.empty())
            return problem;
    for (const Vec3& edge : edges_of(moved.light, moved.pose))
        if (std::string problem = past_walls(room, "the modifier", edge); !problem.empty())
            return problem;
    return {};
}

/// Enough steps that nothing is jumped over.
int steps_of(const HeadMove& move) {
    constexpr double step_deg = 2.0;
    const double most = std::max({std::abs(move.to.turn_deg - move.from.turn_deg),
                                  std::abs(move.to.nod_deg - move.from.nod_deg),
                                  std::abs(move.to.roll_deg - move.from.roll_deg)});
    return std::max(1, static_cast<int>(std::ceil(most / step_deg)));
}

} // namespace

FollowedLight follow_head(const Light& light, const SupportPose& now, const Room& room,
                          const HeadMove& move) {
    const auto limit_at = [&](double share) {
        return broken_limit(moved(light, now, move, share), room);
    };
    double inside = 0.0, outside = 1.0;
    std::string stopped_by = limit_at(0.0);
    if (!stopped_by.empty()) outside = 0.0; // it stands beyond a limit already
    const int steps = steps_of(move);
    for (int i = 1; i <= steps && stopped_by.empty(); ++i) {
        outside = static_cast<double>(i) / steps;
        stopped_by = limit_at(outside);
        if (stopped_by.empty()) inside = outside;
    }
    constexpr int halvings = 8;
    for (int i = 0; i < halvings && outside > inside; ++i) {
        const double middle = 0.5 * (inside + outside);
        if (std::string problem = limit_at(middle); problem.empty()) {
            inside = middle;
        } else {
            outside = middle;
            stopped_by = std::move(problem);
        }
    }
    return {inside > 0.0 ? moved(light, now, move, inside).light : light, between(move, inside),
            inside, std::move(stopped_by)};
}

} // namespace keystead
