// The sheet that questions, lists and pages of words are written on.
#pragma once

#include "engine/ui/ink.h"

namespace keystead::ui {

/// Draws it in the middle of `area` and says where it is.
Rect sheet_box(Pen pen, const Rect& area, float width_px, float height_px);

} // namespace keystead::ui
