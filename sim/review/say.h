// Numbers as the sentences of the review print them.
#pragma once

#include <string>

namespace keystead::say {

/// Fixed decimals, with a true minus sign.
std::string number(double value, int decimals);
/// With its sign always: "+11", "−6".
std::string signed_number(double value, int decimals);
/// "0.12 m", "12°": a space before a unit that is a word.
std::string with_unit(double value, int decimals, const char* unit);
/// "1.3 stops more", "0.4 stop less".
std::string more_or_less(double stops);
/// "0.3 stop", "1 stop", "1.2 stops".
std::string stops(double value);
/// Rounded up to one decimal: what must at least be there.
std::string at_least(double value, const char* unit);

/// Hours of a clock to the nearest half: "half past one", "twelve o'clock".
std::string clock(double hours);

} // namespace keystead::say
