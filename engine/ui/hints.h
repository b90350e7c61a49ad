// Three hints of the first run, each gone once it has been done.
#pragma once

#include "engine/ui/widgets.h"

#include <string>
#include <vector>

namespace keystead::ui {

/// Bits of what was done.
enum Hint : unsigned { hint_drag = 1U, hint_number = 2U, hint_keep = 4U, all_hints = 7U };

struct HintsInput {
    unsigned done = all_hints;
    bool dragging_in_drawing = false; ///< a grip of plan or elevation is being dragged
    bool number_changed = false;      ///< a row of the side panel gave a command
    bool flipped = false;             ///< a kept state is seen
};
/// What is done now, with what was done before.
unsigned hints_done(const HintsInput& in);

/// Words of those that are left.
std::vector<std::string> hint_lines(unsigned done);

/// The card in the lower left corner of `view`, to be drawn before the view so that it has the
/// pointer; empty when nothing is left.
Rect hints_rect(Pen pen, const Rect& view, unsigned done);
/// Its place takes the pointer; true when it is to go for good.
bool hints_pointer(Pen pen, const Rect& card);
void draw_hints(Pen pen, const Rect& card, unsigned done);

} // namespace keystead::ui
