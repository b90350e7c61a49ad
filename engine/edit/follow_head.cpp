#include "engine/edit/follow_head.h"

#include "engine/edit/light_place.h"

#include <algorithm>
#include <cmath>

namespace keystead {

namespace {

HeadPose head_of(const Subject& subject) {
    return {subject.head_turn_deg, subject.head_nod_deg, subject.head_roll_deg};
}

void put_head(Batch& batch, const HeadPose& from, const HeadPose& to) {
    if (to.turn_deg != from.turn_deg) put_angle(batch, "subject.head_turn_deg", to.turn_deg);
    if (to.nod_deg != from.nod_deg) put_angle(batch, "subject.head_nod_deg", to.nod_deg);
    if (to.roll_deg != from.roll_deg) put_angle(batch, "subject.head_roll_deg", to.roll_deg);
}

} // namespace

Result<FollowedHead> follow_with(const Studio& studio, const std::string& light,
                                 const HeadPose& head) {
    const std::vector<Light>& lights = studio.set.lights;
    const auto found =
        std::find_if(lights.begin(), lights.end(), [&](const Light& l) { return l.id == light; });
    if (found == lights.end()) return Problem{"lights[" + light + "]", "", "is not in the set"};
    const auto index = static_cast<std::size_t>(found - lights.begin());
    HeadMove move;
    move.from = head_of(studio.set.subject);
    move.to = head;
    move.neck_m =
        studio.subject->head_origin_m + studio.subject->head_axes * studio.form->neck_pivot_m;
    const FollowedLight followed =
        follow_head(*found, studio.supports[index], studio.set.room, move);
    FollowedHead result{{"head with " + light, {}}, followed.head, followed.stopped_by};
    constexpr double least_deg = 0.1;
    const double made = std::max({std::abs(followed.head.turn_deg - move.from.turn_deg),
                                  std::abs(followed.head.nod_deg - move.from.nod_deg),
                                  std::abs(followed.head.roll_deg - move.from.roll_deg)});
    if (!followed.stopped_by.empty() && made < least_deg)
        return Problem{"lights[" + light + "]", "",
                       "cannot follow the head: " + followed.stopped_by};
    put_head(result.command, move.from, followed.head);
    put_place(result.command, followed.light);
    return result;
}

} // namespace keystead
