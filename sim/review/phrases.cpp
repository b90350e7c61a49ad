#include "sim/review/phrases.h"

#include <cmath>
#include <cstdio>

namespace keystead {

namespace {

std::string plain(double magnitude, int decimals) {
    char text[64];
    std::snprintf(text, sizeof text, "%.*f", decimals, magnitude);
    return text;
}

bool is_zero(const std::string& text) {
    return text.find_first_not_of("0.") == std::string::npos;
}

} // namespace

std::string number(double value, int decimals) {
    const std::string text = plain(std::abs(value), decimals);
    return value < 0.0 && !is_zero(text) ? "−" + text : text;
}

std::string signed_number(double value, int decimals) {
    const std::string text = plain(std::abs(value), decimals);
    if (is_zero(text)) return text;
    return (value < 0.0 ? "−" : "+") + text;
}

std::string stops_text(double stops) {
    const std::string text = number(stops, 1);
    return text + (text == "1.0" || text == "−1.0" ? " stop" : " stops");
}

} // namespace keystead
