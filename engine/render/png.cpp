#include "engine/render/png.h"

#include "engine/render/whole_file.h"

#include <array>
#include <fstream>
#include <stb_image_write.h>

namespace keystead {

namespace {

/// Length 1, type sRGB, intent 0 (perceptual), CRC: PNG specification, 11.3.3.5.
constexpr std::array<std::uint8_t, 13> srgb_chunk{0,   0, 0,    1,    's',  'R', 'G',
                                                  'B', 0, 0xAE, 0xCE, 0x1C, 0xE9};
/// Signature and IHDR come first and have this length together.
constexpr std::size_t header_bytes = 8 + 4 + 4 + 13 + 4;

void collect(void* context, void* data, int size) {
    auto& bytes = *static_cast<std::vector<std::uint8_t>*>(context);
    const auto* from = static_cast<const std::uint8_t*>(data);
    bytes.insert(bytes.end(), from, from + size);
}

} // namespace

std::vector<std::uint8_t> png_bytes(const RgbaImage& image) {
    const std::size_t count =
        static_cast<std::size_t>(image.width) * static_cast<std::size_t>(image.height);
    std::vector<std::uint8_t> rgb(3 * count);
    for (std::size_t i = 0; i < count; ++i)
        for (std::size_t c = 0; c < 3; ++c) rgb[3 * i + c] = image.pixels[4 * i + c];
    std::vector<std::uint8_t> bytes;
    stbi_write_png_to_func(collect, &bytes, image.width, image.height, 3, rgb.data(),
                           3 * image.width);
    if (bytes.size() > header_bytes)
        bytes.insert(bytes.begin() + header_bytes, srgb_chunk.begin(), srgb_chunk.end());
    return bytes;
}

Outcome write_png(const RgbaImage& image, const std::filesystem::path& file) {
    const std::vector<std::uint8_t> bytes = png_bytes(image);
    return write_whole(file, [&](const std::filesystem::path& part) -> Outcome {
        std::ofstream out(part, std::ios::binary);
        out.write(reinterpret_cast<const char*>(bytes.data()), // NOLINT: a stream takes chars
                  static_cast<std::streamsize>(bytes.size()));
        if (!out.flush()) return Problem{file.string(), "cannot be written", ""};
        return std::nullopt;
    });
}

} // namespace keystead
