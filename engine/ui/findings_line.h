// The line at the bottom: what wants attention, what would mend it, and the button that does.
#pragma once

#include "engine/ui/drawn.h"
#include "engine/ui/remedy.h"
#include "engine/ui/seen_notes.h"
#include "engine/ui/widgets.h"
#include "sim/review/review.h"

namespace keystead::ui {

struct FindingsInput {
    const Drawn& drawn;
    const Review* review = nullptr;
    const std::vector<std::optional<Remedy>>& remedies; ///< one a finding
    bool review_is_current = false;
    bool open = false;   ///< the list rather than the one line
    std::string working; ///< "reading the light…" while nothing is known yet
    const std::vector<SeenNote>* seen = nullptr; ///< what needn't be told again; may be null
    bool seen_open = false;                      ///< the list shows those too
};
/// Returns what the finding under the pointer is about.
std::optional<Selection> findings_line(Pen pen, const Rect& rect, const FindingsInput& in,
                                       Outbox& out);

/// Rows the open list wants.
int findings_rows(const Review* review, const std::vector<SeenNote>* seen);

} // namespace keystead::ui
