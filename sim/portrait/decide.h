// From measures to a name: the tests, in their order, and a sentence saying what decided.
#pragma once

#include "sim/portrait/measure.h"

#include <string>

namespace keystead {

struct Verdict {
    Pattern pattern = Pattern::none;
    std::string note;
};

/// `to_lamp` is a unit vector in the head frame.
Verdict decide_pattern(const FaceMeasures& face, const Vec3& to_lamp, const FaceChart& chart);

/// How far aside the nose's shadow may fall on this face and still be a butterfly's.
double butterfly_shift_mm(const FaceLines& lines);

/// Text of a number with `decimals` places.
std::string number_text(double value, int decimals);

} // namespace keystead
