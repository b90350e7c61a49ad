// One ImGui context with our type and colours, and the app in it: what window and screenshot share.
#pragma once

#include "engine/ui/frame.h"
#include "engine/ui/picture_maker.h"
#include "engine/ui/window.h"

namespace keystead::ui {

struct Desk {
    App app;
    Theme theme;
    std::unique_ptr<PictureMaker> pictures;
    bool atlas_is_new = false; ///< the font texture must be uploaded again
};

/// Starts the app on the options' set. False after printing what is wrong.
bool open_desk(Desk& desk, const WindowOptions& options, float scale, std::function<void()> wake);

/// Loads type and style again when theme or scale changed.
void refresh_theme(Desk& desk, float scale, bool force = false);

/// Hash of everything that will be drawn, pictures' content included.
std::uint64_t hash_of(const ImDrawData& data, std::uint64_t pictures);

} // namespace keystead::ui
