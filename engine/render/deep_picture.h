// Pictures with more than eight bits: 16-bit PNG of what is shown, OpenEXR of the linear light.
#pragma once

#include "engine/render/renderer.h"
#include "sim/base/result.h"

#include <filesystem>
#include <vector>

namespace keystead {

/// Display codes of 16 bits, RGB, rows from the top.
struct DeepPicture {
    int width = 0, height = 0;
    std::vector<std::uint16_t> pixels;
};

/// The display transform as the shader does it, undithered. Of the picture only: maps and marks
/// have eight bits.
DeepPicture develop_deep(const LinearImage& linear, const Display& display);

/// Tagged as sRGB. Written beside the target and renamed.
Outcome write_deep_png(const DeepPicture& image, const std::filesystem::path& file);

/// Exposed and balanced linear light, Rec. 709 primaries, 32-bit floats: an 18 % card in metered
/// light is 0.18. The attribute `cd_s_per_m2` holds the luminance of 1.0. Where `error`, each
/// pixel's standard error, is not empty it goes into channels error.R, error.G and error.B.
Outcome write_exr(const LinearImage& linear, const Display& display,
                  const std::filesystem::path& file, const LinearImage& error = {});

} // namespace keystead
