// The strip of lights: letter, role, reading, stops from the key, share, power and gel; on, off and
// alone.
#pragma once

#include "engine/ui/drawn.h"
#include "engine/ui/widgets.h"
#include "sim/review/review.h"

namespace keystead::ui {

struct StripInput {
    const Drawn& drawn;
    const Review* review = nullptr;
    bool review_is_current = false;
    Selection selection;
    std::optional<Selection> hovered;
    RowMemory* rows = nullptr; ///< null: power and gel are only told
    bool only_look = false;    ///< the lights that are on here are not the document's: no switches
};
/// Returns the light under the pointer.
std::optional<Selection> lights_strip(Pen pen, const Rect& rect, const StripInput& in, Outbox& out);

/// Width of one cell for that many lights, framebuffer pixels.
float strip_cell_width(float strip_width, std::size_t lights, float scale);

} // namespace keystead::ui
