#include "sim/set/set_checker.h"

#include "sim/base/text.h"
#include "sim/set/json_text.h"
#include "sim/set/set_reader.h"

#include <algorithm>
#include <cmath>

namespace keystead {

std::string_view unit_of(std::string_view field_name) {
    struct Suffix {
        std::string_view ending, unit;
    };
    // Longer endings first: `_lm_per_w` also ends in `_w`.
    static constexpr Suffix suffixes[] = {{"_lm_per_w", "lm·s per W·s"},
                                          {"_lx_s", "lx·s"},
                                          {"_deg", "°"},
                                          {"_mm", "mm"},
                                          {"_kg", "kg"},
                                          {"_nm", "N·m"},
                                          {"_ws", "W·s"},
                                          {"_m", "m"},
                                          {"_s", "s"},
                                          {"_k", "K"},
                                          {"_w", "W"},
                                          {"_n", "N"}};
    if (field_name == "reflected_k") return "";
    for (const Suffix& suffix : suffixes)
        if (field_name.ends_with(suffix.ending)) return suffix.unit;
    return "";
}

namespace {

std::string range_text(const char* name, const Rule& rule) {
    const auto number = [](double value) {
        std::string text = number_text(value);
        if (text.ends_with(".0")) text.resize(text.size() - 2);
        return text;
    };
    const std::string unit(unit_of(name));
    return "is outside " + number(rule.min) + " to " + number(rule.max) +
           (unit.empty() || unit == "°" ? unit : " " + unit);
}

} // namespace

void Checker::check(const std::string& path, const char* name, double value, const Rule& rule) {
    if (!std::isfinite(value)) {
        problem_ = Problem{path, number_text(value), "is not a finite number"};
    } else if (value < rule.min || value > rule.max) {
        problem_ = Problem{path, number_text(value), range_text(name, rule)};
    }
}

void Checker::check(const std::string& path, const char* name, int value, const Rule& rule) {
    if (value < rule.min || value > rule.max)
        problem_ = Problem{path, std::to_string(value), range_text(name, rule)};
}

void Checker::check(const std::string& path, const char* /*name*/, const std::string& value,
                    const Rule& rule) {
    if (!is_utf8(value)) {
        problem_ = Problem{path, brief_json(value), "is not UTF-8"};
    } else if (const std::size_t count = character_count(value); count > rule.count) {
        problem_ = Problem{path, std::to_string(count) + " characters",
                           "are more than " + std::to_string(rule.count)};
    } else if (!rule.words.empty() &&
               std::find(rule.words.begin(), rule.words.end(), value) == rule.words.end()) {
        problem_ = Problem{path, brief_json(value), "is not one of " + listed(rule.words)};
    }
}

void Checker::check(const std::string& path, const char* name, const Reflectance& value,
                    const Rule&) {
    const bool grey = value.rgb.r == value.rgb.g && value.rgb.g == value.rgb.b;
    if (grey)
        check(path, name, value.rgb.r, between(0, 1));
    else
        check(path, name, value.rgb, between(0, 1));
}

} // namespace keystead
