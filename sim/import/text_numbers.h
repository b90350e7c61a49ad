// Words and numbers of a line, whatever the machine's locale.
#pragma once

#include <cstdint>
#include <optional>
#include <string_view>

namespace keystead::importing {

/// Takes the next word (separated by blanks and tabs) off the front; empty at the end.
std::string_view take_word(std::string_view& line);

/// A finite number. One comma in place of the point is understood and reported in `had_comma`, as
/// some programs write in comma locales. Too small a magnitude is zero.
std::optional<double> real_in(std::string_view word, bool& had_comma);

/// A whole number, sign allowed.
std::optional<std::int64_t> whole_in(std::string_view word);

} // namespace keystead::importing
