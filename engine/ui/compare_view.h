// The lens view while a kept state is compared: the kept picture in place of now, or left of a
// divider that can be dragged.
#pragma once

#include "engine/ui/kept_states.h"
#include "engine/ui/lens_view.h"

namespace keystead::ui {

/// Draws the lens view as `now` asks, or the kept state in its place or beside it. `kept_picture`
/// is the picked state's.
void compared_lens_view(Pen pen, const Rect& rect, const LensInput& now, KeptStates& kept,
                        const PictureShown& kept_picture, Outbox& out);

/// Words on a picture's corner, on a dark ground; `right`: `x` is their right end.
void words_on_picture(Pen pen, float x, float y, const std::string& words, bool right);

} // namespace keystead::ui
