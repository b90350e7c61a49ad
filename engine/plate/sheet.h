// The dark sheet that plates and comparisons are laid out on.
#pragma once

#include "engine/render/filler.h"

#include <cstdint>
#include <glm/glm.hpp>

namespace keystead {

namespace sheet_colour {
inline constexpr std::uint8_t paper = 26;
inline const glm::u8vec3 ink(205, 205, 205), faint(150, 150, 150);
} // namespace sheet_colour

RgbaImage blank_sheet(int width_px, int height_px);

/// Copies a picture that fits onto the sheet, its top left corner at `x`, `y`.
void paste(RgbaImage& onto, const RgbaImage& picture, int x, int y);

} // namespace keystead
