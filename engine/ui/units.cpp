#include "engine/ui/units.h"

#include <array>
#include <cmath>
#include <cstdlib>

namespace keystead::ui {

namespace {

constexpr double inch_m = 0.0254, foot_m = 0.3048, pound_kg = 0.45359237;

/// Feet and inches, inches to `decimals` or, with -1, to halves.
std::string feet_text(double length_m, int decimals) {
    const double step_in = decimals < 0 ? 0.5 : std::pow(10.0, -decimals);
    const double inches = std::round(std::abs(length_m) / inch_m / step_in) * step_in;
    const double feet = std::floor((inches + 1e-9) / 12.0), rest = inches - 12.0 * feet;
    std::string text = length_m < 0.0 && inches > 0.0 ? "\u2212" : "";
    if (feet > 0.0) text += number_text(feet, 0) + "'";
    if (decimals >= 0) return text + number_text(std::max(0.0, rest), decimals) + "\"";
    const double whole = std::floor(rest + 1e-9);
    const bool half = rest - whole > 0.25;
    if (whole > 0.0 || !half) text += number_text(whole, 0);
    return text + (half ? "½\"" : "\"");
}

bool is_length_in(const QuantityRule& rule, std::string_view unit) {
    return rule.dimension == Dimension::length && !rule.fixed_unit && rule.unit == unit;
}

bool is_mass(const QuantityRule& rule) {
    return rule.dimension == Dimension::mass && !rule.fixed_unit;
}

/// In a sentence: short lengths in inches, longer ones in feet and inches.
std::string spoken_length(double length_m) {
    if (std::abs(length_m) >= foot_m - 1e-9) return feet_text(length_m, -1);
    const double inches = length_m / inch_m;
    return number_text(inches, std::abs(inches) < 2.0 ? 1 : 0) + " in";
}

std::string spoken_mass(double mass_kg) {
    const double pounds = mass_kg / pound_kg;
    return number_text(pounds, std::abs(pounds) < 10.0 ? 1 : 0) + " lb";
}

bool is_digit_at(std::string_view text, std::size_t at) {
    return at < text.size() && text[at] >= '0' && text[at] <= '9';
}

/// Digits with at most one point, from `at`; its end.
std::size_t number_end(std::string_view text, std::size_t at) {
    bool point = false;
    while (is_digit_at(text, at) ||
           (!point && at < text.size() && text[at] == '.' && is_digit_at(text, at + 1))) {
        point = point || text[at] == '.';
        ++at;
    }
    return at;
}

double value_of(std::string_view digits) {
    return std::strtod(std::string(digits).c_str(), nullptr);
}

struct SpokenUnit {
    std::string_view word;
    double factor; ///< to metres or kilograms
    bool mass;
};
constexpr std::array spoken_units{SpokenUnit{"mm", 0.001, false}, SpokenUnit{"cm", 0.01, false},
                                  SpokenUnit{"m", 1.0, false}, SpokenUnit{"kg", 1.0, true}};

/// The unit whose whole word stands at `at`; "m/s", "m²" and words that begin like it are not it.
const SpokenUnit* unit_at(std::string_view text, std::size_t at) {
    for (const SpokenUnit& unit : spoken_units) {
        if (text.substr(at, unit.word.size()) != unit.word) continue;
        const std::size_t end = at + unit.word.size();
        if (end == text.size()) return &unit;
        const auto next = static_cast<unsigned char>(text[end]);
        const bool joined = (next >= 'a' && next <= 'z') || (next >= 'A' && next <= 'Z') ||
                            next == '/' || text.substr(end, 2) == "²" ||
                            text.substr(end, 2) == "³" || text.substr(end, 2) == "·";
        if (!joined) return &unit;
    }
    return nullptr;
}

/// Lens lengths are millimetres everywhere: "85 mm, f/8".
bool is_lens(std::string_view text, std::size_t start, std::size_t end, const SpokenUnit& unit) {
    if (unit.word != "mm") return false;
    const std::string_view before = text.substr(0, start), after = text.substr(end);
    return before.ends_with("camera ") || before.ends_with("lens ") || after.starts_with(", f/") ||
           after.starts_with(" lens");
}

} // namespace

std::string drawn_length(double length_m, Units units) {
    return units == Units::imperial ? feet_text(length_m, -1) : number_text(length_m, 2);
}

ShownValue shown_value(double value, const QuantityRule& rule, Units units) {
    if (units == Units::imperial) {
        if (is_length_in(rule, "m")) return {feet_text(value, 1), ""};
        if (is_length_in(rule, "mm")) return {number_text(0.001 * value / inch_m, 2), "in"};
        if (is_mass(rule)) return {number_text(value / pound_kg, 1), "lb"};
    }
    return {number_text(value, rule.decimals), rule.unit};
}

double factor_in(const QuantityRule& rule, Units units) {
    if (units == Units::metric) return 1.0;
    if (is_length_in(rule, "m")) return 1.0 / foot_m;
    if (is_length_in(rule, "mm")) return 0.001 / inch_m;
    return is_mass(rule) ? 1.0 / pound_kg : 1.0;
}

QuantityRule rule_in(const QuantityRule& rule, Units units) {
    const double factor = factor_in(rule, units);
    if (factor == 1.0) return rule;
    QuantityRule shown = rule;
    shown.unit = is_mass(rule) ? "lb" : rule.unit == "m" ? "ft" : "in";
    shown.min *= factor, shown.max *= factor;
    if (shown.current) *shown.current *= factor;
    return shown;
}

std::string in_units(std::string_view words, Units units) {
    if (units == Units::metric) return std::string(words);
    std::string out;
    std::size_t at = 0;
    while (at < words.size()) {
        const bool inside_word =
            at > 0 && (is_digit_at(words, at - 1) || words[at - 1] == '.' || words[at - 1] == '/');
        if (!is_digit_at(words, at) || inside_word) {
            out += words[at++];
            continue;
        }
        const std::size_t end = number_end(words, at);
        std::string_view first = words.substr(at, end - at), second;
        std::size_t next = end;
        // "2.4 × 1.8 mm": the unit belongs to both.
        constexpr std::string_view times = " × ";
        if (words.substr(end, times.size()) == times && is_digit_at(words, end + times.size())) {
            const std::size_t from = end + times.size();
            next = number_end(words, from);
            second = words.substr(from, next - from);
        }
        const bool spaced = next < words.size() && words[next] == ' ';
        const SpokenUnit* unit = spaced ? unit_at(words, next + 1) : nullptr;
        if (unit == nullptr || is_lens(words, at, next + 1 + unit->word.size(), *unit)) {
            out += words.substr(at, end - at);
            at = end;
            continue;
        }
        const auto said = [&](std::string_view digits) {
            const double value = value_of(digits) * unit->factor;
            return unit->mass ? spoken_mass(value) : spoken_length(value);
        };
        out += said(first);
        if (!second.empty()) out += std::string(times) + said(second);
        at = next + 1 + unit->word.size();
    }
    return out;
}

} // namespace keystead::ui
