#include "engine/plate/sheet.h"

#include <algorithm>
#include <cstddef>

namespace keystead {

RgbaImage blank_sheet(int width_px, int height_px) {
    RgbaImage picture;
    picture.width = width_px;
    picture.height = height_px;
    picture.pixels.assign(static_cast<std::size_t>(width_px) * static_cast<std::size_t>(height_px) *
                              4U,
                          sheet_colour::paper);
    for (std::size_t i = 3; i < picture.pixels.size(); i += 4) picture.pixels[i] = 255;
    return picture;
}

void paste(RgbaImage& onto, const RgbaImage& picture, int x, int y) {
    for (int row = 0; row < picture.height; ++row)
        std::copy_n(picture.pixels.begin() + 4 * static_cast<std::ptrdiff_t>(row) * picture.width,
                    4 * picture.width,
                    onto.pixels.begin() +
                        4 * (static_cast<std::ptrdiff_t>(y + row) * onto.width + x));
}

} // namespace keystead
