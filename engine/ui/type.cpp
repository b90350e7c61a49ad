#include "engine/ui/type.h"

#include <cmath>
#include <utility>

namespace keystead::ui {

namespace {

float rounded(float value) {
    return std::floor(value + 0.5F);
}

} // namespace

float width_of(const ImFont* font, std::string_view text) {
    return font
        ->CalcTextSizeA(font->FontSize, 3.4e38F, 0.0F, text.data(), text.data() + text.size())
        .x;
}

float text_at(Pen pen, const ImFont* font, float x, float cy, ImU32 colour, std::string_view text) {
    const ImVec2 at(rounded(x), rounded(cy - 0.5F * font->FontSize));
    pen.list->AddText(font, font->FontSize, at, colour, text.data(), text.data() + text.size());
    return at.x + width_of(font, text);
}

float text_right(Pen pen, const ImFont* font, float right, float cy, ImU32 colour,
                 std::string_view text) {
    const float x = rounded(right - width_of(font, text));
    text_at(pen, font, x, cy, colour, text);
    return x;
}

float text_centre(Pen pen, const ImFont* font, float cx, float cy, ImU32 colour,
                  std::string_view text) {
    return text_at(pen, font, cx - 0.5F * width_of(font, text), cy, colour, text);
}

std::string fitted(const ImFont* font, std::string_view text, float width_px) {
    if (width_of(font, text) <= width_px) return std::string(text);
    std::string shorter(text);
    while (!shorter.empty() && width_of(font, shorter + "…") > width_px) {
        // Whole UTF-8 characters only.
        while (!shorter.empty() && (static_cast<unsigned char>(shorter.back()) & 0xC0U) == 0x80U)
            shorter.pop_back();
        if (!shorter.empty()) shorter.pop_back();
    }
    while (!shorter.empty() && shorter.back() == ' ') shorter.pop_back();
    return shorter + "…";
}

namespace {

/// How much of a word too long for a line goes on it: rather to the end of a folder's name, at
/// least one character.
std::size_t part_that_fits(const ImFont* font, std::string_view word, float width_px) {
    std::size_t fits = 1, folder = 0;
    for (std::size_t end = 1; end <= word.size(); ++end) {
        // Not inside a character of several bytes.
        if (end < word.size() && (static_cast<unsigned char>(word[end]) & 0xC0U) == 0x80U) continue;
        if (end > 1 && width_of(font, word.substr(0, end)) > width_px) break;
        fits = end;
        if (word[end - 1] == '/') folder = end;
    }
    return 2 * folder > fits && fits < word.size() ? folder : fits;
}

} // namespace

std::vector<std::string> wrapped(const ImFont* font, std::string_view text, float width_px) {
    std::vector<std::string> lines;
    std::string current;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t space = std::min(text.find(' ', at), text.size());
        std::string word(text.substr(at, space - at));
        while (width_of(font, word) > width_px && word.size() > 1) {
            if (!current.empty()) lines.push_back(std::exchange(current, {}));
            const std::size_t part = part_that_fits(font, word, width_px);
            if (part >= word.size()) break;
            lines.push_back(word.substr(0, part));
            word.erase(0, part);
        }
        std::string longer = current;
        if (!longer.empty()) longer += ' ';
        longer += word;
        if (!current.empty() && width_of(font, longer) > width_px) {
            lines.push_back(current);
            current = word;
        } else {
            current = longer;
        }
        at = space + 1;
    }
    if (!current.empty()) lines.push_back(current);
    return lines;
}

void text_knocked_out(Pen pen, const ImFont* font, float cx, float cy, ImU32 colour,
                      std::string_view text) {
    const float w = width_of(font, text), h = font->FontSize, pad = pen.px(3);
    fill_rect(pen, {rounded(cx - 0.5F * w) - pad, rounded(cy - 0.5F * h), w + 2.0F * pad, h},
              pen.colour().page);
    text_centre(pen, font, cx, cy, colour, text);
}

} // namespace keystead::ui
