#include "engine/ui/drawn.h"

#include "sim/studio/studio.h"
#include "sim/subject/rough_landmarks.h"

namespace keystead::ui {

Drawn draw_set(const Set& set, const Landmarks* landmarks) {
    Drawn drawn;
    drawn.set = set;
    drawn.has_subject = landmarks != nullptr;
    drawn.landmarks = landmarks != nullptr ? *landmarks : rough_landmarks(set.subject);
    for (const Light& light : set.lights) {
        drawn.poses.push_back(pose_support(light, resolve_aim(light, drawn.landmarks)));
        drawn.stability.push_back(assess(light, drawn.poses.back(), set.limits));
    }
    return drawn;
}

} // namespace keystead::ui
