// Colours, type and measures of the window. Sizes are logical pixels; `px` makes them framebuffer
// pixels. Chrome is neutral, drawing pages are tinted, the picture's surround is strictly grey.
#pragma once

#include "engine/ui/units.h"

#include <imgui.h>

namespace keystead::ui {

enum class ThemeKind { dark, light };
/// Grey round the picture: the theme's own, or one chosen to judge the picture by.
enum class Surround { theme, dark, middle, light };

struct Palette {
    ImU32 chrome, panel, line, line_strong;
    ImU32 text, text2, text3;
    ImU32 page, ink, ink2, ink3, wall; ///< drawing views; ink3 is never text
    ImU32 surround, caption, caption2; ///< lens view
    ImU32 accent, on_accent, hover, pressed, field;
    ImU32 caution, danger;
};

struct Fonts {
    ImFont *body = nullptr, *medium = nullptr, *small = nullptr, *small_medium = nullptr,
           *title = nullptr, *tag = nullptr;
};

struct Theme {
    Palette colour{};
    Fonts font;
    float scale = 1.0F; ///< framebuffer pixels per logical pixel
    ThemeKind kind = ThemeKind::dark;
    Units units = Units::metric; ///< lengths and masses as they are written

    float px(float logical) const;
};

Palette palette_of(ThemeKind kind, Surround surround);

/// The colour with its alpha multiplied.
ImU32 faded(ImU32 colour, float alpha);

/// Style of the ImGui context to match: nothing of its stock look remains.
void apply_style(const Theme& theme);

} // namespace keystead::ui
