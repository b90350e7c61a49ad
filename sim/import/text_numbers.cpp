#include "sim/import/text_numbers.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

namespace keystead::importing {

namespace {

bool is_blank(char c) {
    return c == ' ' || c == '\t' || c == '\r' || c == '\v' || c == '\f';
}

std::string_view without_plus(std::string_view word) {
    if (word.size() > 1 && word.front() == '+' && word[1] != '-') word.remove_prefix(1);
    return word;
}

/// Below the smallest double the library says out of range, as it does above the largest.
bool has_negative_exponent(std::string_view word) {
    const std::size_t e = word.find_first_of("eE");
    return e != std::string_view::npos && e + 1 < word.size() && word[e + 1] == '-';
}

std::optional<double> point_real(std::string_view word) {
    double value = 0.0;
    const auto [end, error] = std::from_chars(word.data(), word.data() + word.size(), value);
    if (end != word.data() + word.size()) return std::nullopt;
    if (error == std::errc::result_out_of_range && has_negative_exponent(word)) return 0.0;
    if (error != std::errc{} || !std::isfinite(value)) return std::nullopt;
    return value;
}

} // namespace

std::string_view take_word(std::string_view& line) {
    std::size_t from = 0;
    while (from < line.size() && is_blank(line[from])) ++from;
    std::size_t to = from;
    while (to < line.size() && !is_blank(line[to])) ++to;
    const std::string_view word = line.substr(from, to - from);
    line.remove_prefix(to);
    return word;
}

std::optional<double> real_in(std::string_view word, bool& had_comma) {
    word = without_plus(word);
    const std::size_t comma = word.find(',');
    if (comma == std::string_view::npos) return point_real(word);
    std::array<char, 64> text{};
    if (word.size() > text.size()) return std::nullopt;
    std::copy(word.begin(), word.end(), text.begin());
    text[comma] = '.'; // a second comma or a point beside it stays and is refused
    const std::optional<double> value = point_real({text.data(), word.size()});
    had_comma = had_comma || value.has_value();
    return value;
}

std::optional<std::int64_t> whole_in(std::string_view word) {
    word = without_plus(word);
    std::int64_t value = 0;
    const auto [end, error] = std::from_chars(word.data(), word.data() + word.size(), value);
    if (error != std::errc{} || end != word.data() + word.size()) return std::nullopt;
    return value;
}

} // namespace keystead::importing
