#include "sim/support/carried.h"

#include "sim/base/frames.h"

#include <array>
#include <cmath>
#include <cstdio>
#include <utility>

namespace keystead {

namespace {

/// What the head carries along when it moves.
bool on_head(const std::string& landmark) {
    return landmark != "chest";
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

} // namespace

double yaw_deg(const Mat3& turn, const Vec3& way) {
    constexpr double least_m = 0.01;
    const Vec3 after = turn * way;
    if (std::hypot(way.x, way.z) < least_m || std::hypot(after.x, after.z) < least_m) return 0.0;
    return wrapped_deg(angles_of(after).azimuth_deg - angles_of(way).azimuth_deg);
}

void carry_aim(Aim& aim, const Mat3& turn, const Vec3& pivot_m, const Vec3& beam) {
    if (aim.kind == AimKind::landmark && on_head(aim.landmark)) return;
    if (aim.kind == AimKind::point) {
        aim.point_m = pivot_m + turn * (aim.point_m - pivot_m);
        return;
    }
    const Angles straight = angles_of(beam);
    aim.kind = AimKind::angles;
    aim.azimuth_deg = wrapped_deg(straight.azimuth_deg + aim.feather_deg);
    aim.elevation_deg = straight.elevation_deg;
}

std::string broken_limit(const CarriedLight& carried, const Room& room) {
    const Column& column = carried.light.support.column;
    constexpr double least_m = 1e-6;
    if (column.height_m > column.max_height_m + least_m)
        return "the column ends at " + metres(column.max_height_m) + ", " +
               metres(column.height_m) + " would be needed";
    if (column.height_m < column.min_height_m - least_m)
        return "the column goes down to " + metres(column.min_height_m) + ", " +
               metres(column.height_m) + " would be needed";
    for (const Vec3& foot : carried.pose.feet_m)
        if (std::string problem = past_walls(room, "a foot", foot); !problem.empty())
            return problem;
    for (const Vec3& end : {carried.pose.column_top_m, carried.pose.tip_m, carried.pose.tail_end_m})
        if (std::string problem = past_walls(room, "the arm", end); !problem.empty())
            return problem;
    for (const Vec3& edge : edges_of(carried.light, carried.pose))
        if (std::string problem = past_walls(room, "the modifier", edge); !problem.empty())
            return problem;
    return {};
}

} // namespace keystead
