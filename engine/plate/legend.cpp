#include "engine/plate/legend.h"

#include "engine/ui/lettering.h"

#include <algorithm>
#include <string>
#include <vector>

namespace keystead {

namespace {

using ui::Lettering;
using Face = Lettering::Face;

constexpr int margin_px = 10;
constexpr std::uint8_t paper = 26;
const glm::u8vec3 ink(215, 215, 215);

struct Canvas {
    RgbaImage& picture;

    void put(int x, int y, const glm::u8vec3& colour) const {
        if (x < 0 || y < 0 || x >= picture.width || y >= picture.height) return;
        const std::size_t at =
            4 * (static_cast<std::size_t>(y) * static_cast<std::size_t>(picture.width) +
                 static_cast<std::size_t>(x));
        for (int c = 0; c < 3; ++c) picture.pixels[at + static_cast<std::size_t>(c)] = colour[c];
    }
    void fill(int x, int y, int w, int h, const glm::u8vec3& colour) const {
        for (int row = y; row < y + h; ++row)
            for (int column = x; column < x + w; ++column) put(column, row, colour);
    }
};

std::vector<std::string> lines_of(const Display& display) {
    std::vector<std::string> lines;
    if (display.shown_as == ShownAs::stops)
        lines.emplace_back("Stops from the face (skin in the light the meter reads there); the "
                           "double line goes round the face's own band.");
    if (display.clipping)
        lines.emplace_back("Striped: the sensor is full, no detail. Dotted: as good as black.");
    lines.push_back(anchor_words(display) + ".");
    return lines;
}

/// Broken where the strip ends.
std::vector<std::string> wrapped(const Lettering& letters, const std::string& text, int width_px) {
    std::vector<std::string> lines;
    std::string line;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = std::min(text.find(' ', at), text.size());
        const std::string word = text.substr(at, end - at);
        const std::string longer = line.empty() ? word : line + " " + word;
        if (!line.empty() && letters.width_px(longer, Face::small) > width_px) {
            lines.push_back(line);
            line = word;
        } else {
            line = longer;
        }
        at = end + 1;
    }
    if (!line.empty()) lines.push_back(line);
    return lines;
}

void write_bands(const Canvas& canvas, const Lettering& letters, int top) {
    constexpr int bands = highest_band - lowest_band + 1;
    const int usable = canvas.picture.width - 2 * margin_px;
    const int line = letters.line_px(Face::small);
    for (int i = 0; i < bands; ++i) {
        const int band = lowest_band + i;
        const int x = margin_px + usable * i / bands, next = margin_px + usable * (i + 1) / bands;
        canvas.fill(x, top, next - x - 1, line + 6, band_colour(band));
        // Where a band is narrow the sign and number must do.
        std::string words = band_words(band);
        if (letters.width_px(words, Face::small) > next - x - 6)
            words = words.substr(0, words.find(' '));
        const glm::u8vec3 on(band < -1 ? 235 : 15);
        letters.write(canvas.picture, x + (next - x - letters.width_px(words, Face::small)) / 2,
                      top + 3, words, Face::small, on);
    }
}

} // namespace

RgbaImage with_legend(const RgbaImage& picture, const Display& display) {
    const bool map = display.shown_as == ShownAs::stops;
    if (!map && !display.clipping) return picture;
    const Lettering letters(1.0F);
    const int line = letters.line_px(Face::small) + 3;
    std::vector<std::string> lines;
    for (const std::string& each : lines_of(display))
        for (std::string& part : wrapped(letters, each, picture.width - 2 * margin_px))
            lines.push_back(std::move(part));
    const int bands = map ? letters.line_px(Face::small) + 6 + margin_px : 0;
    RgbaImage whole;
    whole.width = picture.width;
    whole.height =
        picture.height + margin_px + bands + line * static_cast<int>(lines.size()) + margin_px;
    whole.pixels = picture.pixels;
    whole.pixels.resize(
        4 * static_cast<std::size_t>(whole.width) * static_cast<std::size_t>(whole.height), paper);
    for (std::size_t i = picture.pixels.size() + 3; i < whole.pixels.size(); i += 4)
        whole.pixels[i] = 255;
    int top = picture.height + margin_px;
    if (map) write_bands(Canvas{whole}, letters, top);
    top += bands;
    for (const std::string& each : lines) {
        letters.write(whole, margin_px, top, each, Face::small, ink);
        top += line;
    }
    return whole;
}

} // namespace keystead
