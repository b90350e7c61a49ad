#include "sim/support/lamp_round.h"

#include "sim/base/frames.h"
#include "sim/support/carried.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace keystead {

namespace {

struct Round {
    const Light& light;
    const SupportPose& now;
    const Room& room;
    const RoundMove& move;
    Angles from() const { return angles_of(now.emitter_m - move.face_m); }
};

/// Column height for a tip at that height, and the arm's rise if the column alone can't do it.
void raise_to(Support& support, double tip_height_m) {
    Column& column = support.column;
    if (!support.arm) {
        column.height_m = tip_height_m;
        return;
    }
    Arm& arm = *support.arm;
    const auto up_m = [&] { return arm.reach_m * std::sin(radians(arm.rise_deg)); };
    column.height_m = tip_height_m - up_m();
    const double allowed_m = std::clamp(column.height_m, column.min_height_m, column.max_height_m);
    if (allowed_m == column.height_m || arm.reach_m <= 0.0) return;
    const double rise = std::clamp((tip_height_m - allowed_m) / arm.reach_m, -1.0, 1.0);
    arm.rise_deg = std::clamp(degrees(std::asin(rise)), arm.min_rise_deg, arm.max_rise_deg);
    column.height_m = tip_height_m - up_m();
}

/// Base and column so that the bracket is there.
void hang_at(Support& support, const Vec3& tip_m) {
    raise_to(support, tip_m.y);
    Vec3 top = tip_m;
    if (support.arm)
        top -= support.arm->reach_m * direction_from({support.base.turn_deg + support.arm->turn_deg,
                                                      support.arm->rise_deg});
    support.base.position_m = {top.x, top.z};
}

AimTarget target_of(const Aim& aim, const Vec3& landmark_m) {
    AimTarget target;
    target.feather_deg = aim.feather_deg;
    target.point_m = aim.kind == AimKind::point ? aim.point_m : landmark_m;
    if (aim.kind == AimKind::angles) {
        target.is_direction = true;
        target.direction = direction_from({aim.azimuth_deg, aim.elevation_deg});
    }
    return target;
}

CarriedLight carried_to(const Round& round, Angles direction) {
    const Vec3 before = round.now.emitter_m - round.move.face_m;
    const Vec3 wanted = glm::length(before) * direction_from(direction);
    const Mat3 turn = upright_frame(glm::normalize(-wanted)) *
                      glm::transpose(upright_frame(glm::normalize(-before)));
    CarriedLight result{round.light, {}};
    Support& support = result.light.support;
    support.base.turn_deg = wrapped_deg(support.base.turn_deg + yaw_deg(turn, before));
    carry_aim(result.light.aim, turn, round.move.face_m, turn * round.now.beam_direction);
    const AimTarget target = target_of(result.light.aim, round.move.landmark_m);
    // Where it looks depends on where the bracket is, and the other way about: each round takes
    // about a tenth of the error.
    Vec3 tip =
        round.move.face_m + wanted - face_ahead_m(round.light) * turn * round.now.beam_direction;
    for (int i = 0; i < 6; ++i)
        tip = round.move.face_m + wanted - face_ahead_m(round.light) * beam_toward(tip, target);
    hang_at(support, tip);
    result.pose = pose_support(result.light, target);
    return result;
}

Angles between(Angles from, Angles to, double share) {
    return {from.azimuth_deg + share * wrapped_deg(to.azimuth_deg - from.azimuth_deg),
            from.elevation_deg + share * (to.elevation_deg - from.elevation_deg)};
}

bool possible(const Round& round, Angles direction) {
    return broken_limit(carried_to(round, direction), round.room).empty();
}

/// The last possible share of the way from `sure` toward `wanted`, looked for from `sure` on.
double furthest(const Round& round, Angles sure, Angles wanted) {
    constexpr double step_deg = 2.0;
    const double most = std::max(std::abs(wrapped_deg(wanted.azimuth_deg - sure.azimuth_deg)),
                                 std::abs(wanted.elevation_deg - sure.elevation_deg));
    const int steps = std::max(1, static_cast<int>(std::ceil(most / step_deg)));
    double inside = 0.0, outside = 1.0;
    for (int i = 1; i <= steps; ++i) {
        outside = static_cast<double>(i) / steps;
        if (!possible(round, between(sure, wanted, outside))) break;
        inside = outside;
    }
    for (int i = 0; i < 8 && outside > inside; ++i) {
        const double middle = 0.5 * (inside + outside);
        (possible(round, between(sure, wanted, middle)) ? inside : outside) = middle;
    }
    return inside;
}

/// The possible elevation nearest to the wanted one in its azimuth, between that and a little past
/// where the lamp is; nothing where there is none.
std::optional<Angles> as_high_as_goes(const Round& round, Angles wanted) {
    constexpr double step_deg = 1.0, past_deg = 10.0;
    const double way = round.from().elevation_deg - wanted.elevation_deg;
    const double sign = way < 0.0 ? -1.0 : 1.0;
    for (double away = step_deg; away < std::abs(way) + past_deg; away += step_deg) {
        const Angles tried{wanted.azimuth_deg, wanted.elevation_deg + sign * away};
        if (std::abs(tried.elevation_deg) < 89.0 && possible(round, tried))
            return between(tried, wanted, furthest(round, tried, wanted));
    }
    return {};
}

} // namespace

RoundLamp lamp_round(const Light& light, const SupportPose& now, const Room& room,
                     const RoundMove& move) {
    const Round round{light, now, room, move};
    const Angles wanted = angles_of(move.to_lamp);
    CarriedLight there = carried_to(round, wanted);
    std::string limit = broken_limit(there, room);
    if (limit.empty()) return {std::move(there.light), std::move(there.pose), {}};
    const std::optional<Angles> nearest = as_high_as_goes(round, wanted);
    const Angles possible_there =
        nearest ? *nearest : between(round.from(), wanted, furthest(round, round.from(), wanted));
    CarriedLight kept = carried_to(round, possible_there);
    // It stands beyond a limit already: it stays.
    if (!broken_limit(kept, room).empty()) return {light, now, std::move(limit)};
    return {std::move(kept.light), std::move(kept.pose), std::move(limit)};
}

} // namespace keystead
