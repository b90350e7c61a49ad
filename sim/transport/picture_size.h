// A picture in blocks of 4 x 4 pixels: sixteen lanes of one block are neighbours.
#pragma once

#include <cstddef>

namespace keystead {

inline constexpr int block_px = 4;

/// Width and height in pixels. Blocks run row by row from the top left; lane 4 y + x of a block is
/// pixel (x, y) in it. Blocks at the right and bottom edge reach over it: their lanes outside the
/// picture are computed and never shown.
struct PictureSize {
    int width_px = 0, height_px = 0;

    int blocks_across() const { return (width_px + block_px - 1) / block_px; }
    int blocks_down() const { return (height_px + block_px - 1) / block_px; }
    std::size_t blocks() const {
        return static_cast<std::size_t>(blocks_across()) * static_cast<std::size_t>(blocks_down());
    }
    friend bool operator==(const PictureSize&, const PictureSize&) = default;
};

/// Floats of one layer: red, green and blue of sixteen pixels a block.
inline constexpr std::size_t layer_block_floats = 48;

} // namespace keystead
