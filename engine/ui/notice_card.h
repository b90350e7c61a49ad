// What went wrong, where the menu's line has no room for all of it: a card below that line. It goes
// with a click on it, or with the notice.
#pragma once

#include "engine/ui/type.h"

#include <string>

namespace keystead::ui {

/// The card at the upper right of `views`; empty where the notice is no trouble or fits the line.
Rect notice_rect(Pen pen, const Rect& views, const std::string& notice, bool is_bad);
/// To be called before the views, so that it has the pointer; true when it was clicked away.
bool notice_pointer(Pen pen, const Rect& card);
void draw_notice(Pen pen, const Rect& card, const std::string& notice);

} // namespace keystead::ui
