// The subject's silhouettes for the drawing views, taken from the posed surface itself.
#pragma once

#include "sim/subject/subject.h"

#include <vector>

namespace keystead::ui {

/// A closed outline on a drawing plane, metres: plan (x, z), elevation (z, y).
using Outline = std::vector<Vec2>;

struct SubjectOutline {
    Outline plan_body;     ///< shoulders and below, from above
    Outline plan_head;     ///< head with hair
    Outline plan_hair;     ///< the part of the head the hair covers from above; may be empty
    Outline side;          ///< all of it from camera right
    Outline side_hair;     ///< may be empty
    double lowest_m = 0.0; ///< where the surface ends; below it nothing is modelled
};

SubjectOutline outline_of(const PosedSubject& subject);

} // namespace keystead::ui
