#include "sim/photometry/number_stream.h"

#include <charconv>
#include <cmath>

namespace keystead::photometry {

std::vector<std::string_view> lines_of(std::string_view text) {
    if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);
    text = text.substr(0, text.find('\x1A'));
    std::vector<std::string_view> lines;
    while (!text.empty()) {
        const std::size_t end = text.find_first_of("\r\n");
        lines.push_back(text.substr(0, end));
        if (end == std::string_view::npos) break;
        const bool pair = text[end] == '\r' && end + 1 < text.size() && text[end + 1] == '\n';
        text.remove_prefix(end + (pair ? 2 : 1));
    }
    return lines;
}

std::string_view trimmed(std::string_view text) {
    constexpr const char* blank = " \t\f\v";
    const std::size_t first = text.find_first_not_of(blank);
    if (first == std::string_view::npos) return {};
    return text.substr(first, text.find_last_not_of(blank) - first + 1);
}

std::string shown(std::string_view text) {
    std::string safe = "\"";
    for (const char c : trimmed(text).substr(0, 40))
        safe += c >= 0x20 && c < 0x7F && c != '"' ? c : '?';
    return safe + '"';
}

std::optional<double> number_in(std::string_view word) {
    if (word.starts_with('+')) word.remove_prefix(1);
    double value = 0.0;
    const auto [end, error] = std::from_chars(word.data(), word.data() + word.size(), value);
    if (error != std::errc{} || end != word.data() + word.size() || !std::isfinite(value))
        return std::nullopt;
    return value;
}

NumberStream::NumberStream(std::vector<std::string_view> lines, std::size_t first, std::string file)
    : lines_(std::move(lines))
    , line_(first)
    , file_(std::move(file)) {}

std::optional<std::string_view> NumberStream::word() {
    constexpr const char* separators = " \t,\f\v";
    for (; line_ < lines_.size(); ++line_, column_ = 0) {
        const std::string_view line = lines_[line_];
        const std::size_t start = line.find_first_not_of(separators, column_);
        if (start == std::string_view::npos) continue;
        column_ = std::min(line.find_first_of(separators, start), line.size());
        return line.substr(start, column_ - start);
    }
    return std::nullopt;
}

void NumberStream::refuse(const std::string& found, const std::string& allowed) {
    const std::size_t line = std::min(line_ + 1, lines_.size());
    if (!problem_) problem_ = Problem{file_ + " line " + std::to_string(line), found, allowed};
}

double NumberStream::real(const std::string& what) {
    if (problem_) return 0.0;
    const auto text = word();
    if (!text) {
        refuse("the file ends", "where " + what + " is expected");
        return 0.0;
    }
    const auto value = number_in(*text);
    if (!value) refuse(shown(*text), "is not a number; expected " + what);
    return value.value_or(0.0);
}

int NumberStream::whole(const std::string& what, int low, int high) {
    const double value = real(what);
    if (problem_) return 0;
    if (value != std::floor(value) || value < low || value > high) {
        std::string text = std::to_string(value);
        text.erase(text.find_last_not_of('0') + 1);
        if (text.ends_with('.')) text.pop_back();
        refuse(text,
               "is not " + what + " from " + std::to_string(low) + " to " + std::to_string(high));
        return 0;
    }
    return static_cast<int>(value);
}

std::vector<double> NumberStream::reals(const std::string& what, std::size_t count) {
    std::vector<double> values;
    values.reserve(count);
    for (std::size_t i = 0; i < count && !problem_; ++i)
        values.push_back(real(what + " " + std::to_string(i + 1) + " of " + std::to_string(count)));
    return values;
}

std::size_t NumberStream::rest() {
    std::size_t count = 0;
    while (word()) ++count;
    return count;
}

} // namespace keystead::photometry
