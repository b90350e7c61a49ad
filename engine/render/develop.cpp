#include "engine/render/develop.h"

#include "engine/render/display_text.h"
#include "engine/render/stops_map_text.h"

#include <algorithm>
#include <cmath>
#include <tbb/parallel_for.h>

namespace keystead {

glm::vec3 exposed(const glm::vec3& linear, const Display& display) {
    return static_cast<float>(display.exposure) * (display.balance * linear);
}

glm::vec3 plain_code(const glm::vec3& exposed, const Display& display) {
    return display_curve::display_encoded(
        display_curve::printed(exposed, static_cast<float>(display.print_contrast)),
        display.soft_shoulder);
}

namespace {

/// One picture being shown; pixels count from the bottom left as in the shader.
struct Darkroom {
    const LinearImage& linear;
    const Display& display;

    glm::vec3 exposed_at(int x, int y) const {
        const int column = std::clamp(x, 0, linear.width - 1);
        const int row = linear.height - 1 - std::clamp(y, 0, linear.height - 1);
        const auto place = static_cast<std::size_t>(row) * static_cast<std::size_t>(linear.width) +
                           static_cast<std::size_t>(column);
        return keystead::exposed(linear.pixels[place], display);
    }

    float band_at(int x, int y) const {
        const float tone = stops_map::luminance_of(exposed_at(x, y));
        return stops_map::stop_band(
            stops_map::stops_of_tone(tone, static_cast<float>(display.face_tone)));
    }

    /// Bands with a thin line where they meet; the line about the face's own band is twice as wide.
    glm::vec3 map_code(int x, int y) const {
        const float band = band_at(x, y);
        const glm::vec3 code = display_curve::srgb_encoded3(stops_map::stop_band_colour(band));
        const int reach = std::max(1, display.mark_px / 8);
        for (int step = 1; step <= 2 * reach; ++step) {
            const float right = band_at(x + step, y), above = band_at(x, y + step);
            const bool face = band == 0.0F || right == 0.0F || above == 0.0F;
            if ((right != band || above != band) && (step <= reach || face)) return 0.45F * code;
        }
        return code;
    }

    /// Stripes where a channel fills the sensor, dots where what is left would print as black.
    glm::vec3 marked(const glm::vec3& code, const glm::vec3& exposed, int x, int y) const {
        const float most = std::max({exposed.r, exposed.g, exposed.b});
        const int half_px = std::max(1, display.mark_px / 2);
        if (most >= static_cast<float>(display.full_tone))
            return glm::vec3(((x + y) / half_px) % 2 == 0 ? 0.0F : 1.0F);
        const int dot_px = std::max(1, display.mark_px / 4);
        const int mark_px = std::max(1, display.mark_px);
        if (most < display_curve::black_tone && x % mark_px < dot_px && y % mark_px < dot_px)
            return glm::vec3(0.75F);
        return code;
    }

    glm::vec3 code_at(int x, int y) const {
        const glm::vec3 exposed = exposed_at(x, y);
        glm::vec3 code =
            display.shown_as == ShownAs::stops ? map_code(x, y) : plain_code(exposed, display);
        if (display.clipping) code = marked(code, exposed, x, y);
        if (display.dither && display.shown_as != ShownAs::stops)
            code +=
                dither_code(static_cast<std::uint32_t>(x), static_cast<std::uint32_t>(y)) / 255.0F;
        return code;
    }

    static float dither_code(std::uint32_t x, std::uint32_t y) {
        std::uint32_t h = x * 0x9E3779B1U ^ y * 0x85EBCA77U;
        h ^= h >> 15U;
        h *= 0x2C1B3C6DU;
        h ^= h >> 12U;
        h *= 0x297A2D39U;
        h ^= h >> 15U;
        return (static_cast<float>(h & 0xFFFFU) / 65535.0F - 0.5F) * 0.9F;
    }
};

} // namespace

void develop_marked(const LinearImage& linear, const Display& display, bool bottom_first,
                    RgbaImage& shown) {
    const Darkroom room{linear, display};
    tbb::parallel_for(0, linear.height, [&](int y) {
        const int row = bottom_first ? y : linear.height - 1 - y;
        std::uint8_t* to =
            shown.pixels.data() + 4 * static_cast<std::ptrdiff_t>(row) * linear.width;
        for (int x = 0; x < linear.width; ++x, to += 4) {
            const glm::vec3 code = glm::clamp(room.code_at(x, y), 0.0F, 1.0F);
            for (int c = 0; c < 3; ++c) to[c] = static_cast<std::uint8_t>(255.0F * code[c] + 0.5F);
            to[3] = 255;
        }
    });
}

RgbaImage developed(const LinearImage& linear, const Display& display) {
    RgbaImage shown{linear.width, linear.height, {}};
    shown.pixels.resize(4 * linear.pixels.size());
    develop_marked(linear, display, false, shown);
    return shown;
}

} // namespace keystead
