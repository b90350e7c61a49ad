#include "sim/support/follow_head.h"

#include "sim/base/frames.h"
#include "sim/support/carried.h"

#include <algorithm>
#include <cmath>
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

CarriedLight moved(const Light& light, const SupportPose& now, const HeadMove& move, double share) {
    const Mat3 turn = axes_of(between(move, share)) * glm::transpose(axes_of(move.from));
    const Vec3 emitter = move.neck_m + turn * (now.emitter_m - move.neck_m);
    const Vec3 beam = turn * now.beam_direction;
    const double yaw = yaw_deg(turn, now.emitter_m - move.neck_m);
    const Vec3 arm = head_rotation(yaw, 0.0, 0.0) * (now.tip_m - now.column_top_m);
    const Vec3 top = emitter - face_ahead_m(light) * beam - arm;
    CarriedLight result{light, {}};
    Support& support = result.light.support;
    support.base.position_m = {top.x, top.z};
    support.base.turn_deg = wrapped_deg(support.base.turn_deg + yaw);
    support.column.height_m = top.y;
    carry_aim(result.light.aim, turn, move.neck_m, beam);
    AimTarget along;
    along.is_direction = true;
    along.direction = beam;
    result.pose = pose_support(result.light, along);
    return result;
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
