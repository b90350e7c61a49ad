// The subject moved through the room, as one edit. The origin is under the subject, so everything
// that stays where it is in the room gets new coordinates: walls, background, camera, stands,
// points, panels, props. What belongs to the subject moves along: aims at landmarks, where the
// camera looks, meter points near the body.
#pragma once

#include "engine/edit/command.h"

namespace keystead {

/// As far of `by_m` (x to camera right, z toward the camera) as walls and background let it.
Vec2 allowed_move(const Set& set, const Vec2& by_m);

Command move_subject(const Set& set, const Vec2& by_m);

} // namespace keystead
