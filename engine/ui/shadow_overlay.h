// Learn's outlines and words over the lens picture.
#pragma once

#include "engine/ui/close_up.h"
#include "engine/ui/face_lesson.h"
#include "engine/ui/label_place.h"
#include "sim/review/review.h"

#include <string>
#include <vector>

namespace keystead::ui {

/// Where the picture lies, and what part of it is shown.
struct LensPart {
    Rect rect;
    CloseUp part;
};

/// Over the picture; words may stand anywhere in `room`, beside the face before on
/// it, and on no eye where there is another place. Drawn faintly where the lesson is not `current`:
/// made from the set as it was. Gives where the words are.
std::vector<Rect> shadow_overlay(Pen pen, const Rect& room, const LensPart& picture,
                                 const FaceLesson& lesson, bool current, LabelMemory& memory);

/// In the lines below the picture: what `light` alone makes, what decided it and, if the review is
/// about that light, how far other names are.
void lesson_sentence(Pen pen, const Rect& lines, const Rect& picture, const std::string& light,
                     const FaceLesson& lesson, const Review* review, bool current);

} // namespace keystead::ui
