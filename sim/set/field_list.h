// What a list of fields is: see fields.h.
//
// An archive `a` offers `a.header()`, `a.field(name, member, rule, about)` for each member, and
// `a.extras(member)` for the unknown fields of a file.
#pragma once

#include "sim/set/field_rules.h"

#include <concepts>

namespace keystead {

/// True for the structs that have a list below.
template <class T>
struct FieldList;
template <class T>
concept Listed = requires {
    FieldList<T>::name;
};
/// Gear that may start from a catalogue entry.
template <class T>
concept Gear = Listed<T> && requires(T gear) {
    { gear.from } -> std::same_as<std::string&>;
};

} // namespace keystead
