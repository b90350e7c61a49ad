// Loads the window's type from the system: Inter, else DejaVu Sans, found through fontconfig.
#pragma once

#include "engine/ui/theme.h"

#include <string>

namespace keystead::ui {

/// Fills the current ImGui context's atlas for this content scale and returns the faces. Sizes are
/// em sizes: ImGui counts ascent to descent, so each file's own ratio is applied. Digits are given
/// one width, so that columns of figures line up. `name` receives the family used.
Fonts load_fonts(float scale, ThemeKind kind, std::string* name = nullptr);

} // namespace keystead::ui
