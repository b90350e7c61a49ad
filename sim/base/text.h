// Text from outside: whether it is UTF-8, and fit for one line of a message.
#pragma once

#include <string>
#include <string_view>

namespace keystead {

/// RFC 3629: shortest forms only, no surrogates, nothing above U+10FFFF.
bool is_utf8(std::string_view text);

/// Of UTF-8: code points, as JSON Schema counts a text's length.
std::size_t character_count(std::string_view text);

/// What would break a line, control and spoil a terminal, and bytes that are no UTF-8, become `?`;
/// a longer text is cut between characters and ends in "...".
std::string one_line(std::string_view text, std::size_t longest_bytes);

} // namespace keystead
