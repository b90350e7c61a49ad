// The document as a JSON value: for edits that address fields by path.
#pragma once

#include "sim/set/json_text.h"
#include "sim/set/set_io.h"

#include <string_view>

namespace keystead {

/// Every field of the set, as `write_set` prints them.
Json set_to_json(const Set& set);
Json light_to_json(const Light& light);

/// Reads and validates, as `parse_set` does with text.
Result<LoadedSet> set_from_json(const Json& json);

/// Whether `owner` (`proportions`, `head`, `gel`…) has a field of that name which the text leaves
/// out where it is not given.
bool may_be_left_out(std::string_view owner, std::string_view field);

} // namespace keystead
