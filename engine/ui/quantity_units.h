// Names of units and the clean-up of typed text, for the number fields.
#pragma once

#include "engine/ui/quantity.h"

#include <string>
#include <string_view>

namespace keystead::ui {

/// Typed text with one kind of minus, point, space, foot and inch mark; "f/8" loses its "f/".
std::string normalised(std::string_view text);

/// Longest run at `at` that could be a unit's name; empty if none starts there.
std::string unit_name_at(const std::string& text, std::size_t at);

/// Size of a unit in its dimension's base unit (m, kg, °, stop, Ws, K, s, lm, W); 0 if it is not
/// one of that dimension. The empty name is 1 for every dimension.
double factor_of(std::string_view unit, Dimension dimension);

/// The unit that a bare number takes after this one: inches after feet, centimetres after metres,
/// ounces after pounds; 0 where there is none.
double next_smaller(std::string_view unit);

/// "not a length", "not a mass" …
std::string not_a(Dimension dimension);

inline bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

} // namespace keystead::ui
