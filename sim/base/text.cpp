#include "sim/base/text.h"

#include <algorithm>

namespace keystead {

namespace {

/// Length of the UTF-8 sequence at `at`, or 0. Table 3-7 of the Unicode standard.
std::size_t sequence_length(std::string_view text, std::size_t at) {
    const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
    const unsigned lead = byte(at);
    if (lead < 0x80) return 1;
    if (lead < 0xC2 || lead > 0xF4) return 0;
    const std::size_t length = lead < 0xE0 ? 2 : lead < 0xF0 ? 3 : 4;
    if (at + length > text.size()) return 0;
    const unsigned second = byte(at + 1);
    const unsigned low = lead == 0xE0 ? 0xA0 : lead == 0xF0 ? 0x90 : 0x80;
    const unsigned high = lead == 0xED ? 0x9F : lead == 0xF4 ? 0x8F : 0xBF;
    if (second < low || second > high) return 0;
    for (std::size_t i = at + 2; i < at + length; ++i)
        if ((byte(i) & 0xC0U) != 0x80U) return 0;
    return length;
}

/// Controls of ASCII, U+0080 to U+009F, and the line separators U+2028 and U+2029.
bool breaks_line(std::string_view sequence) {
    const auto lead = static_cast<unsigned char>(sequence[0]);
    if (sequence.size() == 1) return lead < 0x20 || lead == 0x7F;
    if (sequence.size() == 2) return lead == 0xC2 && static_cast<unsigned char>(sequence[1]) < 0xA0;
    return sequence == "\xE2\x80\xA8" || sequence == "\xE2\x80\xA9";
}

} // namespace

bool is_utf8(std::string_view text) {
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t length = sequence_length(text, at);
        if (length == 0) return false;
        at += length;
    }
    return true;
}

std::size_t character_count(std::string_view text) {
    return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) {
        return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
    }));
}

std::string one_line(std::string_view text, std::size_t longest_bytes) {
    std::string out;
    for (std::size_t at = 0; at < text.size();) {
        if (out.size() >= longest_bytes) return out + "...";
        const std::size_t length = sequence_length(text, at);
        const std::string_view sequence = text.substr(at, length);
        if (length == 0 || breaks_line(sequence))
            out += '?';
        else
            out += sequence;
        at += length == 0 ? 1 : length;
    }
    return out;
}

} // namespace keystead
