// Metric or imperial on screen. The document, its files and every figure inside stay metric; this
// is only how lengths and masses are written, and what a bare number in a field means.
//
// 1 in = 25.4 mm, 1 ft = 0.3048 m, 1 lb = 0.453 592 37 kg exactly (NIST SP 811 appendix B).
#pragma once

#include "engine/ui/quantity.h"

#include <string>
#include <string_view>

namespace keystead::ui {

enum class Units { metric, imperial };

/// A length without its unit as drawings have it: "1.73", or 5'8" to half an inch.
std::string drawn_length(double length_m, Units units);

/// A value in a field's unit, and that unit's word: {"1.73", "m"}, {5'8.1", ""}, {"15.0", "lb"}.
struct ShownValue {
    std::string text, unit;
};
ShownValue shown_value(double value, const QuantityRule& rule, Units units);

/// What a field accepts when it is shown so: a bare number is in feet, inches or pounds.
QuantityRule rule_in(const QuantityRule& rule, Units units);
/// Times this a value of `rule` is one of `rule_in`.
double factor_in(const QuantityRule& rule, Units units);

/// A sentence with its lengths and masses written so: "0.12 m outside the feet" becomes
/// "5 in outside the feet". Speeds, lens lengths, torques and the like stay as they are.
std::string in_units(std::string_view words, Units units);

} // namespace keystead::ui
