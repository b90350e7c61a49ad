// What can be taken hold of on the drawing sheets, and what dragging it means. Pure functions of
// the set as it was when the drag began, so a drag is the same however it is reached.
#pragma once

#include "engine/edit/command.h"
#include "engine/ui/page.h"
#include "engine/ui/selection.h"
#include "engine/ui/subject_outline.h"

#include <optional>
#include <string>
#include <vector>

namespace keystead::ui {

enum class GripKind {
    base,   ///< rolls the whole stand over the floor
    leg,    ///< turns the base about its column
    body,   ///< the lamp: swings and runs out the arm, or moves the stand that has none
    column, ///< height of the column
    camera,
    head,      ///< plan: turn; elevation: nod
    shoulders, ///< turn of the body
    background,
    panel
};

struct Grip {
    GripKind kind = GripKind::base;
    Selection what;
    int leg = 0;
    Points outline; ///< taken hold of anywhere inside, page points
    ImVec2 spot;    ///< or within `radius` of this
    float radius = 0.0F;
};

/// Topmost first.
std::vector<Grip> grips_of(const Drawn& drawn, const SubjectOutline* outline, const Page& page,
                           const Selection& selection);
/// The first one under the pointer.
std::optional<Grip> grip_at(const std::vector<Grip>& grips, const ImVec2& pointer);

/// A drag's meaning: the command and the numbers to show beside the pointer.
struct Dragged {
    std::optional<Command> command;
    std::string words;       ///< "camera right 1.20, toward camera 0.85"
    std::string pushed_back; ///< "2.60 m is as high as it goes"; empty inside the limits
};

/// `from_m`, `to_m`: plane points (plan x, z; elevation z, y) where the drag began and is now.
/// Steps of 5 cm and 5°, `fine` 1 cm and 1°.
Dragged drag_grip(const Grip& grip, const Drawn& at_start, Plane plane, const Vec2& from_m,
                  const Vec2& to_m, bool fine);

} // namespace keystead::ui
