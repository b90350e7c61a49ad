// JSON from a stranger: nesting and size are checked before any parser sees the text, because a
// parser that calls itself for each level overflows the stack.
#pragma once

#include "sim/import/blame.h"

#include <nlohmann/json.hpp>
#include <string_view>

namespace keystead::importing {

/// Deepest nesting and number of values of a JSON text, told without parsing it. Braces inside
/// strings do not count.
struct JsonExtent {
    std::uint64_t depth = 0;
    std::uint64_t values = 0; ///< an upper bound
};
JsonExtent scan_json(std::string_view text);

/// The text as a document whose root is an object.
Result<nlohmann::json> parse_guarded(std::string_view text, const ImportLimits& limits,
                                     const Blame& blame);

} // namespace keystead::importing
