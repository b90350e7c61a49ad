#include "sim/review/say.h"

#include <array>
#include <cmath>
#include <cstdio>
#include <string_view>

namespace keystead::say {

std::string number(double value, int decimals) {
    std::array<char, 48> text{};
    std::snprintf(text.data(), text.size(), "%.*f", decimals, std::abs(value));
    const std::string digits = text.data();
    const bool zero = digits.find_first_not_of("0.") == std::string::npos;
    return value < 0.0 && !zero ? "−" + digits : digits;
}

std::string signed_number(double value, int decimals) {
    const std::string text = number(value, decimals);
    return value > 0.0 && text.find_first_not_of("0.") != std::string::npos ? "+" + text : text;
}

std::string with_unit(double value, int decimals, const char* unit) {
    const bool joined = std::string_view(unit) == "°";
    return number(value, decimals) + (joined ? "" : " ") + unit;
}

std::string stops(double value) {
    const std::string text = number(std::abs(value), 1);
    return (text == "1.0" ? "1" : text) + (std::abs(value) < 1.05 ? " stop" : " stops");
}

std::string more_or_less(double value) {
    return stops(value) + (value >= 0.0 ? " more" : " less");
}

std::string at_least(double value, const char* unit) {
    return with_unit(std::ceil(value * 10.0 - 1e-6) / 10.0, 1, unit);
}

std::string clock(double hours) {
    static constexpr std::array<const char*, 12> names{"twelve", "one",  "two", "three",
                                                       "four",   "five", "six", "seven",
                                                       "eight",  "nine", "ten", "eleven"};
    const int halves = static_cast<int>(std::lround(2.0 * hours)) % 24;
    const std::string hour = names[static_cast<std::size_t>((halves / 2) % 12)];
    return halves % 2 == 0 ? hour + " o'clock" : "half past " + hour;
}

} // namespace keystead::say
