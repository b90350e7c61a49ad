// What the catalogue says where a set says something else.
#pragma once

#include "sim/set/set.h"

#include <optional>
#include <string_view>

namespace keystead::ui {

/// The number that the catalogue's entry has for a field of a light, addressed as commands do:
/// `lights[key].head.energy_ws`. None where the part is of no entry, or the field is where it
/// stands rather than what it is.
std::optional<double> catalogue_number(const Set& set, std::string_view path);

} // namespace keystead::ui
