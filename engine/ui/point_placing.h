// Placing a point of the subject's own head by a click in the lens picture.
#pragma once

#include "engine/ui/outbox.h"
#include "engine/ui/type.h"
#include "sim/studio/own_points.h"

namespace keystead::ui {

/// In the lens picture: what to click, and where the points are.
struct PointPlacing {
    std::optional<OwnPointKind> wanted;
    bool missed = false; ///< the last click was not on the head
};
/// Draws over the picture; a click there gives the command. Only while a point is wanted.
void place_in_picture(Pen pen, const Rect& picture, const Studio& studio,
                      const PointPlacing& placing, bool clicked, Outbox& out);

} // namespace keystead::ui
