// Shape parameters from measures: each measure is taken on the field, each has one parameter that
// moves it monotonically.
#pragma once

#include "sim/subject/shape.h"

namespace keystead::sculpt {

/// What can be measured on a shape's field, millimetres, named and defined as in `Measures`.
struct Measured {
    double head_girth = 0.0, head_length = 0.0, head_breadth = 0.0, bizygomatic = 0.0,
           bigonial = 0.0;
    double nose_protrusion = 0.0, nose_breadth = 0.0;
    double menton_sellion = 0.0, tragion_top = 0.0;
    double neck_girth = 0.0, bideltoid = 0.0;
};
Measured measure(const Shape& shape);

/// The shape whose surface has these measures; parameters stop at the bounds that keep it whole.
Shape solved_shape(const Measures& measures);

} // namespace keystead::sculpt
