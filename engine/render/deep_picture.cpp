#include "engine/render/deep_picture.h"

#include "engine/render/develop.h"
#include "engine/render/whole_file.h"

#include <array>
#include <bit>
#include <cmath>
#include <cstdio>
#include <cstring>
#include <memory>
#include <png.h>
#include <tinyexr.h>

namespace keystead {

namespace {

struct FileCloser {
    void operator()(std::FILE* file) const { std::fclose(file); } // NOLINT: libpng wants a FILE
};

/// libpng reports through longjmp: no object with a destructor may live in this function.
bool put_png(std::FILE* file, const DeepPicture& image, png_bytepp rows) {
    png_structp png = png_create_write_struct(PNG_LIBPNG_VER_STRING, nullptr, nullptr, nullptr);
    png_infop info = png != nullptr ? png_create_info_struct(png) : nullptr;
    if (info == nullptr || setjmp(png_jmpbuf(png)) != 0) { // NOLINT: libpng's way
        png_destroy_write_struct(&png, &info);
        return false;
    }
    png_init_io(png, file);
    png_set_IHDR(png, info, static_cast<png_uint_32>(image.width),
                 static_cast<png_uint_32>(image.height), 16, PNG_COLOR_TYPE_RGB, PNG_INTERLACE_NONE,
                 PNG_COMPRESSION_TYPE_DEFAULT, PNG_FILTER_TYPE_DEFAULT);
    png_set_sRGB(png, info, PNG_sRGB_INTENT_PERCEPTUAL);
    png_write_info(png, info);
    if constexpr (std::endian::native == std::endian::little) png_set_swap(png);
    png_write_image(png, rows);
    png_write_end(png, nullptr);
    png_destroy_write_struct(&png, &info);
    return true;
}

struct Plane {
    const char* name;
    std::vector<float> values;
};

/// Blue, green and red of a picture in their order by name; lights of other balance mix channels,
/// so an error is balanced as if its channels erred together.
void add_planes(const LinearImage& image, const Display& display,
                const std::array<const char*, 3>& names, std::vector<Plane>& planes) {
    for (std::size_t c = 0; c < 3; ++c) {
        Plane plane{names[c], {}};
        plane.values.reserve(image.pixels.size());
        for (const glm::vec3& pixel : image.pixels)
            plane.values.push_back(exposed(pixel, display)[static_cast<int>(2 - c)]);
        planes.push_back(std::move(plane));
    }
}

} // namespace

DeepPicture develop_deep(const LinearImage& linear, const Display& display) {
    DeepPicture image{linear.width, linear.height, {}};
    image.pixels.reserve(3 * linear.pixels.size());
    for (const glm::vec3& pixel : linear.pixels) {
        const glm::vec3 code = plain_code(exposed(pixel, display), display);
        for (int c = 0; c < 3; ++c)
            image.pixels.push_back(static_cast<std::uint16_t>(
                std::lround(65535.0F * glm::clamp(code[c], 0.0F, 1.0F))));
    }
    return image;
}

Outcome write_deep_png(const DeepPicture& image, const std::filesystem::path& file) {
    std::vector<std::uint16_t> pixels = image.pixels; // libpng takes rows it could write to
    std::vector<png_bytep> rows;
    const auto width = static_cast<std::size_t>(image.width);
    for (std::size_t y = 0; y < static_cast<std::size_t>(image.height); ++y)
        rows.push_back(reinterpret_cast<png_bytep>(&pixels[3 * width * y])); // NOLINT: its type
    return write_whole(file, [&](const std::filesystem::path& part) -> Outcome {
        const std::unique_ptr<std::FILE, FileCloser> out(std::fopen(part.c_str(), "wb"));
        if (out == nullptr || !put_png(out.get(), image, rows.data()) ||
            std::fflush(out.get()) != 0)
            return Problem{file.string(), "cannot be written", ""};
        return std::nullopt;
    });
}

Outcome write_exr(const LinearImage& linear, const Display& display,
                  const std::filesystem::path& file, const LinearImage& error_of) {
    std::vector<Plane> planes; // OpenEXR keeps channels by name
    add_planes(linear, display, {"B", "G", "R"}, planes);
    if (!error_of.pixels.empty())
        add_planes(error_of, display, {"error.B", "error.G", "error.R"}, planes);
    EXRHeader header;
    InitEXRHeader(&header);
    EXRImage image;
    InitEXRImage(&image);
    std::vector<float*> channels;
    std::vector<EXRChannelInfo> infos(planes.size());
    std::vector<int> types(planes.size(), TINYEXR_PIXELTYPE_FLOAT);
    for (std::size_t c = 0; c < planes.size(); ++c) {
        channels.push_back(planes[c].values.data());
        std::strncpy(infos[c].name, planes[c].name, sizeof infos[c].name - 1);
    }
    image.images = reinterpret_cast<unsigned char**>(channels.data()); // NOLINT: its type
    image.num_channels = header.num_channels = static_cast<int>(planes.size());
    image.width = linear.width;
    image.height = linear.height;
    header.channels = infos.data();
    header.pixel_types = types.data();
    header.requested_pixel_types = types.data();
    header.compression_type = TINYEXR_COMPRESSIONTYPE_ZIP;
    // Little-endian in the file whatever the machine, as the format says.
    auto of_one = std::bit_cast<std::uint32_t>(static_cast<float>(1.0 / display.exposure));
    std::array<unsigned char, 4> bytes{};
    for (unsigned char& byte : bytes) {
        byte = static_cast<unsigned char>(of_one & 0xFFU);
        of_one >>= 8U;
    }
    EXRAttribute unit{};
    std::strncpy(unit.name, "cd_s_per_m2", sizeof unit.name - 1);
    std::strncpy(unit.type, "float", sizeof unit.type - 1);
    unit.value = bytes.data();
    unit.size = 4;
    header.num_custom_attributes = 1;
    header.custom_attributes = &unit;
    return write_whole(file, [&](const std::filesystem::path& part) -> Outcome {
        const char* error = nullptr;
        if (SaveEXRImageToFile(&image, &header, part.c_str(), &error) == TINYEXR_SUCCESS)
            return std::nullopt;
        const std::string why = error != nullptr ? error : "";
        FreeEXRErrorMessage(error);
        return Problem{file.string(), "cannot be written", why};
    });
}

} // namespace keystead
