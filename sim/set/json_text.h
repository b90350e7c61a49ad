// JSON text to values and back: strict, bounded, with errors that name the place.
#pragma once

#include "sim/base/result.h"

#include <nlohmann/json.hpp>
#include <string>
#include <string_view>

namespace keystead {

using Json = nlohmann::ordered_json;

inline constexpr std::size_t json_max_bytes = 16U << 20U;
inline constexpr int json_max_depth = 32;
inline constexpr std::size_t json_max_members = 512; ///< fields of one object
inline constexpr std::size_t json_max_unknown = 256; ///< of those, of a set's, unknown to us

/// Parses the whole text. Problems: empty or cut-off text, anything that is not JSON (with line and
/// column), a field given twice, numbers that are not finite, too deep, too large.
Result<Json> parse_json(std::string_view text);

/// Two-space indented, arrays of plain values on one line, UTF-8, a newline at the end.
std::string print_json(const Json& value);

/// One line; bytes that are no UTF-8 are replaced, as a file's name may have them.
std::string json_line(const Json& value);

/// One line of at most `limit` characters, for error messages: `9.0`, `"wide"`, `{...}`.
std::string brief_json(const Json& value, std::size_t limit = 40);

/// A number as the document would print it: shortest text that reads back the same.
std::string number_text(double value);

} // namespace keystead
