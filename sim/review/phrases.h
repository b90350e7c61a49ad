// Numbers as sentences print them. Minus is U+2212.
#pragma once

#include <string>

namespace keystead {

/// Fixed decimals with a real minus sign; "0.0" never prints as "−0.0".
std::string number(double value, int decimals);
/// With an explicit + or −.
std::string signed_number(double value, int decimals);
/// "1.2 stops", "1.0 stop".
std::string stops_text(double stops);

} // namespace keystead
