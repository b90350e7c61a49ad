#include "sim/review/report_parts.h"

#include <cmath>

namespace keystead {

Json tidy(double value) {
    if (!std::isfinite(value)) return nullptr;
    return std::round(value * 1e4) / 1e4 + 0.0;
}

Json tidy(const std::optional<double>& value) {
    return value ? tidy(*value) : Json(nullptr);
}

Json tidy(const Vec3& v) {
    return Json::array({tidy(v.x), tidy(v.y), tidy(v.z)});
}

Json text_or_null(const std::string& text) {
    return text.empty() ? Json(nullptr) : Json(text);
}

std::string padded(const std::string& text, std::size_t width) {
    std::size_t characters = 0;
    for (const char c : text) characters += (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
    return text + std::string(characters < width ? width - characters : 1, ' ');
}

const char* word_of(Verdict verdict) {
    if (verdict == Verdict::stable) return "stable";
    return verdict == Verdict::caution ? "caution" : "unstable";
}

} // namespace keystead
