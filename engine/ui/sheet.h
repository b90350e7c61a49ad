// A drawing view: the sheet, its header, and what the pointer does on it. Plan and elevation share
// everything but what is drawn.
#pragma once

#include "engine/ui/grips.h"
#include "engine/ui/head_follow.h"
#include "engine/ui/label_place.h"
#include "engine/ui/outbox.h"
#include "sim/review/review.h"

namespace keystead::ui {

/// What a drag on a sheet remembers: the set as it was when it began.
struct SheetDrag {
    std::optional<Grip> grip;
    Plane plane = Plane::plan;
    Drawn start;
    Vec2 from_m{0.0};
    ImVec2 from_px;
    Page page;          ///< the sheet as it was then: the sitter's drag moves the room on it
    Vec2 sitter_m{0.0}; ///< how far the sitter has been moved, x and z
    bool moved = false, cancelled = false;
    std::string words, pushed_back;
};

/// One drawing view's own memory.
struct SheetMemory {
    Sheet sheet;
    LabelMemory labels;
    Bounds at_rest; ///< what was fitted before the drag in hand
};

struct SheetInput {
    const Drawn& drawn;
    const SubjectOutline* outline = nullptr; ///< null until the subject has been shaped
    Selection selection;
    std::optional<Selection> hovered; ///< in any view
    bool dragging = false;            ///< something is dragged somewhere
    HeadFollow* follow = nullptr;     ///< the light that moves with the head, if one does
    bool keeps_distance = false;      ///< a light that is moved stays as far from the face
};

/// Draws the view into `rect`, lets things be selected and dragged; returns what is hovered.
std::optional<Selection> sheet_view(Pen pen, Plane plane, const Rect& rect, const SheetInput& in,
                                    SheetMemory& memory, SheetDrag& drag, Outbox& out);

/// Everything one drawing needs.
struct Drawing {
    Pen pen;
    const Page& page;
    const SheetInput& in;
    LabelPlacer& labels;
    const Palette& colour() const { return pen.colour(); }
    const Set& set() const { return in.drawn.set; }
    std::string metres(double length_m) const { return drawn_length(length_m, pen.theme->units); }
    bool selected(const Selection& what) const { return in.selection == what; }
    bool hovered(const Selection& what) const { return in.hovered && *in.hovered == what; }
};
void draw_plan(const Drawing& d);
void draw_elevation(const Drawing& d);

} // namespace keystead::ui
