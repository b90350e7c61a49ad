// The chart of patterns as a drawing view: directions from the face, the name each would make, and
// a dot where the light is, which can be dragged.
#pragma once

#include "engine/ui/drawn.h"
#include "engine/ui/learn.h"
#include "engine/ui/outbox.h"
#include "engine/ui/type.h"

namespace keystead::ui {

struct CardInput {
    const Drawn& drawn;
    std::shared_ptr<const Studio> studio; ///< of the set as it is; null while it is being shaped
    bool studio_is_current = false;
    std::optional<std::size_t> light{}; ///< whose chart it is; nothing lights the face without
    bool dragging = false;              ///< something is dragged somewhere
};

/// Draws the view into `rect`; a drag of the dot gives commands.
void pattern_card(Pen pen, const Rect& rect, const CardInput& in, Learn& learn, Outbox& out);

} // namespace keystead::ui
