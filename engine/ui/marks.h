// The marks of the drawing: letters of lights, how a stand stands, dimensions, scale bar, plumb
// mark.
#pragma once

#include "engine/ui/ink.h"
#include "sim/support/stability.h"

#include <string>

namespace keystead::ui {

/// A, B, C … Z, A2, B2 … in the order of the build.
std::string letter_of(std::size_t index);

struct TagLook {
    bool selected = false, hovered = false, muted = false;
    bool on_page = true; ///< page fill; else panel fill
    float radius = 9.0F; ///< logical pixels
};
void tag(Pen pen, const ImVec2& centre, std::string_view letter, const TagLook& look);

/// A column on a foot: upright, leaning, past the edge. `height` in logical pixels; `left`,
/// `floor_y` are the start of its floor line.
void state_glyph(Pen pen, float left, float floor_y, float height, Verdict verdict, ImU32 colour);
float state_glyph_width(Pen pen, float height);
/// Text, caution or danger colour.
ImU32 state_colour(const Palette& palette, Verdict verdict);
const char* state_word(Verdict verdict); ///< "stands", "caution", "falls"

/// A dimension with end ticks and its figure (metres, two decimals) on the line.
struct DimensionLook {
    ImU32 line_colour = 0, text_colour = 0;
    bool stubs = true;
    bool figure = true;
};
void dimension(Pen pen, const ImVec2& a, const ImVec2& b, std::string_view figure,
               const DimensionLook& look);

/// One metre, or four feet, in quarters; its right end at `right`.
void scale_bar(Pen pen, const ImVec2& right, float px_per_m);

/// Quartered disc with four ticks: the centre of mass seen from above.
void plumb_mark(Pen pen, const ImVec2& centre, float radius, ImU32 colour, ImU32 ground);

void arrow_head(Pen pen, const ImVec2& tip, const ImVec2& direction, ImU32 colour);
void chevron(Pen pen, const ImVec2& centre, bool open, ImU32 colour);
/// Curved arrow: back (undo) or forward (redo).
void turn_arrow(Pen pen, const ImVec2& centre, bool back, ImU32 colour);
void cross_mark(Pen pen, const ImVec2& centre, float half, ImU32 colour);
/// An egg: the subject, where a light would have its letter.
void egg(Pen pen, const ImVec2& centre, ImU32 colour);

} // namespace keystead::ui
