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
    panel,
    aim,   ///< what the picked light, or the camera, looks at
    sitter ///< moves the subject through the room
};

struct Grip {
    GripKind kind = GripKind::base;
    Selection what;
    int leg = 0;
    Points outline; ///< taken hold of anywhere inside, page points
    ImVec2 spot;    ///< or within `radius` of this
    float radius = 0.0F;
    double near_m = 0.0; ///< aim: a landmark this near to the pointer is meant itself
};

/// Where the subject is taken hold of in the plan: behind the shoulders, clear of head and arms.
Vec2 sitter_handle_m(const Set& set);

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

/// How a drag is meant.
struct DragManner {
    bool fine = false;           ///< steps of 1 cm and 1° instead of 5 cm and 5°
    bool keeps_distance = false; ///< a light moved over the floor stays as far from the face
    Units units = Units::metric; ///< imperial: steps of 2 in and 1/2 in, and the words
};

/// `from_m`, `to_m`: plane points (plan x, z; elevation z, y) where the drag began and is now.
Dragged drag_grip(const Grip& grip, const Drawn& at_start, Plane plane, const Vec2& from_m,
                  const Vec2& to_m, const DragManner& manner);

/// How far the arm runs out: to its own limit, or until its counterweight is at the tail's end.
double most_reach_m(const Arm& arm);
/// Which of the two it is, in words.
const char* whose_reach(const Arm& arm);

/// How far the sitter is moved by such a drag, x and z; zero for any other.
Vec2 sitter_moved_m(const Grip& grip, const Drawn& at_start, Plane plane, const Vec2& from_m,
                    const Vec2& to_m, const DragManner& manner);

} // namespace keystead::ui
