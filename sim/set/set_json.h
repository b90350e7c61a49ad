// The document as a JSON value: for edits that address fields by path.
#pragma once

#include "sim/set/json_text.h"
#include "sim/set/set_io.h"

#include <string>
#include <vector>

namespace keystead {

/// Every field of the set, as `write_set` prints them.
Json set_to_json(const Set& set);
Json light_to_json(const Light& light);

/// Reads and validates, as `parse_set` does with text.
Result<LoadedSet> set_from_json(const Json& json);

/// Names of the measures a subject may leave out.
std::vector<std::string> proportion_names();

} // namespace keystead
