#include "engine/edit/light_round.h"

#include "engine/edit/light_place.h"
#include "sim/portrait/pattern.h"
#include "sim/support/lamp_round.h"

#include <algorithm>

namespace keystead {

Result<LightRound> carry_light_round(const Studio& studio, const std::string& light,
                                     Angles wanted) {
    const std::vector<Light>& lights = studio.set.lights;
    const auto found =
        std::find_if(lights.begin(), lights.end(), [&](const Light& l) { return l.id == light; });
    if (found == lights.end()) return Problem{"lights[" + light + "]", "", "is not in the set"};
    const Landmarks& marks = studio.subject->landmarks;
    const Mat3& head = studio.subject->head_axes;
    const RoundMove move{marks.face, head * direction_from(wanted),
                         resolve_aim(*found, marks).point_m};
    const RoundLamp lamp =
        lamp_round(*found, studio.supports[static_cast<std::size_t>(found - lights.begin())],
                   studio.set.room, move);
    LightRound result{{light + " round the face", {}},
                      face_angles(lamp.pose.emitter_m - marks.face, head),
                      lamp.pushed_back};
    put_place(result.command, lamp.light);
    return result;
}

} // namespace keystead
