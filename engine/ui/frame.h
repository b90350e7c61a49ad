// One frame of the window: everything laid out and drawn from the app's state.
#pragma once

#include "engine/ui/app.h"

namespace keystead::ui {

struct Pictures {
    PictureShown lens, room;
    PictureShown kept; ///< of the kept state that is compared
};

/// Between ImGui::NewFrame and ImGui::Render. Fills the whole display; carries out what was asked.
void build_frame(App& app, const Theme& theme, const Pictures& pictures);

} // namespace keystead::ui
