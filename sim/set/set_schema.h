// The JSON Schema (2020-12) of the document, made from the field lists.
#pragma once

#include <string>

namespace keystead {

/// The text of assets/set.schema.json.
std::string set_schema_text();

} // namespace keystead
