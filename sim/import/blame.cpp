#include "sim/import/blame.h"

#include <array>
#include <cstdio>

namespace keystead::importing {

namespace {

constexpr std::size_t longest_quote = 60;

/// Length of the valid UTF-8 sequence at `at`, or 0. Overlong forms and surrogates do no harm here.
std::size_t sequence_length(std::string_view text, std::size_t at) {
    const auto lead = static_cast<unsigned char>(text[at]);
    std::size_t length = 1;
    if (lead >= 0xF0 && lead < 0xF8)
        length = 4;
    else if (lead >= 0xE0 && lead < 0xF0)
        length = 3;
    else if (lead >= 0xC2 && lead < 0xE0)
        length = 2;
    else if (lead >= 0x80)
        return 0;
    if (at + length > text.size()) return 0;
    for (std::size_t i = 1; i < length; ++i)
        if ((static_cast<unsigned char>(text[at + i]) & 0xC0U) != 0x80U) return 0;
    return length;
}

std::string one_line(std::string_view text, std::size_t longest) {
    std::string out;
    for (std::size_t at = 0; at < text.size();) {
        if (out.size() >= longest) return out + "...";
        const std::size_t length = sequence_length(text, at);
        const auto lead = static_cast<unsigned char>(text[at]);
        const bool control = length == 1 && (lead < 0x20 || lead == 0x7F);
        // U+0080..U+009F and the line separators U+2028, U+2029 break lines too.
        const std::string_view sequence = text.substr(at, length);
        const bool breaks =
            (length == 2 && lead == 0xC2 && static_cast<unsigned char>(sequence[1]) < 0xA0) ||
            sequence == "\xE2\x80\xA8" || sequence == "\xE2\x80\xA9";
        if (length == 0 || control || breaks)
            out += '?';
        else
            out += sequence;
        at += length == 0 ? 1 : length;
    }
    return out;
}

} // namespace

std::string in_quotes(std::string_view text) {
    return "\"" + one_line(text, longest_quote) + "\"";
}

std::string byte_count(std::uint64_t bytes) {
    if (bytes < 1'000'000) return std::to_string(bytes) + (bytes == 1 ? " byte" : " bytes");
    std::array<char, 40> text{};
    const double millions = static_cast<double>(bytes) * 1e-6;
    if (millions < 1000.0)
        std::snprintf(text.data(), text.size(), "%.1f MB", millions);
    else
        std::snprintf(text.data(), text.size(), "%.1f GB", millions * 1e-3);
    return text.data();
}

Blame::Blame(const std::filesystem::path& file)
    : name_(one_line(file.filename().string(), 120)) {
    if (name_.empty()) name_ = one_line(file.string(), 120);
}

Problem Blame::problem(std::string_view place, std::string_view found,
                       std::string_view remedy) const {
    std::string path = name_;
    if (!place.empty()) path += ", " + std::string(place);
    return {path, std::string(found) + ";", std::string(remedy)};
}

Problem Blame::damaged(std::string_view place, std::string_view found) const {
    return problem(place, found, "the file is damaged, export it again");
}

Problem Blame::stopped() const {
    return problem("", "the import was stopped", "open it again");
}

} // namespace keystead::importing
