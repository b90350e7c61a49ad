// Setting text: always centred on a line, starting on whole pixels.
#pragma once

#include "engine/ui/ink.h"

#include <string>
#include <string_view>
#include <vector>

namespace keystead::ui {

float width_of(const ImFont* font, std::string_view text);

/// Centred vertically on `cy`, starting at `x`; returns where it ends.
float text_at(Pen pen, const ImFont* font, float x, float cy, ImU32 colour, std::string_view text);
float text_right(Pen pen, const ImFont* font, float right, float cy, ImU32 colour,
                 std::string_view text);
float text_centre(Pen pen, const ImFont* font, float cx, float cy, ImU32 colour,
                  std::string_view text);

/// Shortened with an ellipsis so that it fits.
std::string fitted(const ImFont* font, std::string_view text, float width_px);

/// Broken at spaces into lines no wider than `width_px`.
std::vector<std::string> wrapped(const ImFont* font, std::string_view text, float width_px);

/// Text on a patch of page colour, so that lines do not run through it.
void text_knocked_out(Pen pen, const ImFont* font, float cx, float cy, ImU32 colour,
                      std::string_view text);

} // namespace keystead::ui
