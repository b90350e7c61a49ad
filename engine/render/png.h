// PNG files, tagged as sRGB.
#pragma once

#include "engine/render/renderer.h"
#include "sim/base/result.h"

#include <filesystem>
#include <vector>

namespace keystead {

/// The picture as the bytes of an opaque RGB PNG with an sRGB chunk (perceptual intent).
std::vector<std::uint8_t> png_bytes(const RgbaImage& image);

/// Writes beside the target and renames, so that a picture is whole or not there.
Outcome write_png(const RgbaImage& image, const std::filesystem::path& file);

} // namespace keystead
