// A part of the lens picture: close to the face, so that small shadows can be read.
#pragma once

#include "sim/studio/studio.h"
#include "sim/transport/view.h"

namespace keystead::ui {

/// Of the whole picture, -1..1 to the right and up: what lies within `share` about `centre`.
struct CloseUp {
    Vec2 centre{0.0};
    double share = 1.0; ///< of width and height alike
    bool whole() const { return share >= 1.0; }
    /// Where a place of the whole picture is in this part.
    Vec2 at(const Vec2& whole) const { return (whole - centre) / share; }
};

/// The head, crown to chin, over half of the picture's height; the whole picture where the head is
/// nearly that large in it, or out of it.
CloseUp close_to_face(const Studio& studio);

View part_of(View whole, const CloseUp& close);

} // namespace keystead::ui
