#include "sim/light/stops.h"

#include <charconv>
#include <cmath>
#include <optional>
#include <vector>

namespace keystead {

namespace {

Problem refusal(std::string_view text, const std::string& why) {
    return {"f-number", "\"" + std::string(text) + "\"", why};
}

/// The text cut at spaces and plus signs, without the leading "f" or "f/", commas made points.
std::vector<std::string> words_of(std::string_view text) {
    std::vector<std::string> words;
    bool open = false;
    for (const char c : text) {
        if (c == ' ' || c == '\t' || c == '+') {
            open = false;
            continue;
        }
        if (!open) words.emplace_back();
        open = true;
        words.back() += c == ',' ? '.' : c;
    }
    if (words.empty()) return words;
    std::string& first = words.front();
    if (first[0] == 'f' || first[0] == 'F') first.erase(0, 1);
    if (!first.empty() && first[0] == '/') first.erase(0, 1);
    if (first.empty()) words.erase(words.begin());
    return words;
}

/// A plain positive decimal number, all of `word`.
std::optional<double> number_of(const std::string& word) {
    if (word.find_first_not_of("0123456789.") != std::string::npos) return std::nullopt;
    double value = 0.0;
    const char* end = word.data() + word.size();
    const auto [stop, error] = std::from_chars(word.data(), end, value);
    if (error != std::errc() || stop != end || !(value > 0.0)) return std::nullopt;
    return value;
}

/// A number of the third-stop scale: its own nominal mark, give or take trailing zeros.
bool is_nominal(double value) {
    const std::optional<double> mark = number_of(nominal_f_number(value));
    return mark && std::abs(*mark - value) < 1e-9;
}

bool is_full_stop(double value) {
    const double stop = 2.0 * std::log2(exact_f_number(value));
    return is_nominal(value) && std::abs(stop - std::round(stop)) < 1e-6;
}

/// Could the word be a full stop with the meter's small tenths digit run into it ("8.7", "8.07")?
bool may_hide_tenths(const std::string& word) {
    if (word.find('.') == std::string::npos || word.back() == '0') return false;
    std::string stem = word.substr(0, word.size() - 1);
    if (!stem.empty() && stem.back() == '.') stem.pop_back();
    const std::optional<double> value = number_of(stem);
    return value && is_full_stop(*value);
}

/// Stops above the first word: "7" tenths, "2/3", "3/10".
std::optional<double> added_stops(const std::string& word) {
    const std::size_t slash = word.find('/');
    if (slash == std::string::npos) {
        const std::optional<double> tenths = word == "0" ? 0.0 : number_of(word);
        return tenths && word.size() == 1 ? std::optional(*tenths / 10.0) : std::nullopt;
    }
    const std::string over = word.substr(0, slash);
    const std::optional<double> part = over == "0" ? 0.0 : number_of(over);
    const std::optional<double> whole = number_of(word.substr(slash + 1));
    if (!part || !whole || *part >= *whole) return std::nullopt;
    return *part / *whole;
}

} // namespace

Result<double> parse_f_number(std::string_view text) {
    const std::vector<std::string> words = words_of(text);
    if (words.empty() || words.size() > 2)
        return refusal(text, "is not an f-number; write f/8, f/8 + 3/10 or 8.0 3");
    const std::optional<double> base = number_of(words[0]);
    if (!base) return refusal(text, "is not an f-number; write f/8, f/8 + 3/10 or 8.0 3");
    if (*base < 0.3 || *base > 200.0) return refusal(text, "is outside f/0.3 to f/200");
    if (!is_nominal(*base) && may_hide_tenths(words[0]))
        return refusal(text, "may be a decimal or a full stop and tenths; write f/" + words[0] +
                                 "0 for the decimal, a space before tenths");
    const double exact = is_nominal(*base) ? exact_f_number(*base) : *base;
    if (words.size() == 1) return exact;
    const std::optional<double> stops = added_stops(words[1]);
    if (!stops) return refusal(text, "has a part that is neither tenths nor a fraction of a stop");
    return f_number_plus_stops(exact, *stops);
}

} // namespace keystead
