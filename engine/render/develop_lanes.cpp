#include "engine/render/develop_lanes.h"

#include "engine/render/display_text.h"

#include <algorithm>
#include <array>
#include <cstring>

namespace keystead {

namespace {

using lanes::F16;
using lanes::I16;
using lanes::U16;
using lanes::V16;

KEYSTEAD_INLINE V16 weighted(std::span<const LayerTerm> terms, std::size_t offset) {
    V16 sum(F16(0.0F));
    for (const LayerTerm& term : terms) {
        const float* block = term.blocks + offset;
        sum.x += lanes::load(block) * F16(term.factor.x);
        sum.y += lanes::load(block + 16) * F16(term.factor.y);
        sum.z += lanes::load(block + 32) * F16(term.factor.z);
    }
    return sum;
}

KEYSTEAD_INLINE void store_block(float* block, const V16& value) {
    lanes::store(block, value.x);
    lanes::store(block + 16, value.y);
    lanes::store(block + 32, value.z);
}

KEYSTEAD_INLINE V16 balanced(const glm::mat3& m, const V16& c) {
    return {c.x * F16(m[0].x) + c.y * F16(m[1].x) + c.z * F16(m[2].x),
            c.x * F16(m[0].y) + c.y * F16(m[1].y) + c.z * F16(m[2].y),
            c.x * F16(m[0].z) + c.y * F16(m[1].z) + c.z * F16(m[2].z)};
}

/// Places of a block's sixteen pixels in it.
inline constexpr std::array<std::uint32_t, 16> lane_x{0, 1, 2, 3, 0, 1, 2, 3,
                                                      0, 1, 2, 3, 0, 1, 2, 3};
inline constexpr std::array<std::uint32_t, 16> lane_y{0, 0, 0, 0, 1, 1, 1, 1,
                                                      2, 2, 2, 2, 3, 3, 3, 3};

KEYSTEAD_INLINE U16 load_whole(const std::array<std::uint32_t, 16>& from) {
    U16 to;
    std::memcpy(&to.v, from.data(), sizeof to.v);
    return to;
}

/// As dither_code in shaders/display.frag; `y` counts from the bottom as there.
KEYSTEAD_INLINE F16 dither_code(const U16& x, const U16& y) {
    U16 h = (x * U16(0x9E3779B1U)) ^ (y * U16(0x85EBCA77U));
    h = h ^ (h >> 15);
    h = h * U16(0x2C1B3C6DU);
    h = h ^ (h >> 12);
    h = h * U16(0x297A2D39U);
    h = h ^ (h >> 15);
    const F16 low = lanes::to_float(lanes::as_signed(h & U16(0xFFFFU)));
    return (low / F16(65535.0F) - F16(0.5F)) * F16(0.9F);
}

KEYSTEAD_INLINE I16 code_of(const F16& value, const F16& dither) {
    return lanes::to_int(
        lanes::clamp(value * F16(255.0F) + dither + F16(0.5F), F16(0.0F), F16(255.0F)));
}

/// What of a block lies in the picture goes to its rows.
void put_block(const DevelopJob& job, int across, int down, const std::uint32_t* codes) {
    const int left = across * block_px;
    const int width = std::min(block_px, job.size.width_px - left);
    for (int y = 0; y < block_px; ++y) {
        const int row = down * block_px + y;
        if (row >= job.size.height_px) break;
        const int place = job.bottom_first ? job.size.height_px - 1 - row : row;
        std::memcpy(job.shown + 4 * (static_cast<std::ptrdiff_t>(place) * job.size.width_px + left),
                    codes + static_cast<std::ptrdiff_t>(y) * block_px,
                    4 * static_cast<std::size_t>(width));
    }
}

KEYSTEAD_SIMD void develop_rows_lanes(const DevelopJob& job, int begin, int end) {
    const int across = job.size.blocks_across();
    const U16 in_x = load_whole(lane_x), in_y = load_whole(lane_y);
    for (int down = begin; down < end; ++down)
        for (int i = 0; i < across; ++i) {
            const auto offset = (static_cast<std::size_t>(down) * static_cast<std::size_t>(across) +
                                 static_cast<std::size_t>(i)) *
                                layer_block_floats;
            V16 sum = weighted(job.fixed, offset);
            if (job.fixed_sum != nullptr) store_block(job.fixed_sum + offset, sum);
            sum += weighted(job.live, offset);
            const V16 exposed = balanced(job.balance, sum) * F16(job.exposure);
            const V16 shown = display_lanes::display_encoded(
                display_lanes::printed(exposed, job.print_contrast), job.soft);
            F16 dither(0.0F);
            if (job.dither) {
                const U16 x = U16(static_cast<std::uint32_t>(i * block_px)) + in_x;
                const auto top =
                    static_cast<std::uint32_t>(job.size.height_px - 1 - down * block_px);
                dither = dither_code(x, U16(top) - in_y);
            }
            const I16 packed = code_of(shown.x, dither) | (code_of(shown.y, dither) << 8) |
                               (code_of(shown.z, dither) << 16);
            const U16 codes = lanes::as_unsigned(packed) | U16(0xFF000000U);
            alignas(64) std::array<std::uint32_t, 16> out;
            std::memcpy(out.data(), &codes.v, sizeof out);
            put_block(job, i, down, out.data());
        }
}

KEYSTEAD_SIMD void sum_rows_lanes(PictureSize size, std::span<const LayerTerm> terms, int begin,
                                  int end, glm::vec3* pixels) {
    const int across = size.blocks_across();
    for (int down = begin; down < end; ++down)
        for (int i = 0; i < across; ++i) {
            const auto offset = (static_cast<std::size_t>(down) * static_cast<std::size_t>(across) +
                                 static_cast<std::size_t>(i)) *
                                layer_block_floats;
            const V16 sum = weighted(terms, offset);
            for (std::size_t lane = 0; lane < 16; ++lane) {
                const int x = i * block_px + static_cast<int>(lane % 4),
                          y = down * block_px + static_cast<int>(lane / 4);
                if (x < size.width_px && y < size.height_px)
                    pixels[static_cast<std::ptrdiff_t>(y) * size.width_px + x] = sum[lane];
            }
        }
}

} // namespace

void develop_rows(const DevelopJob& job, int begin, int end) {
    develop_rows_lanes(job, begin, end);
}

void sum_rows(PictureSize size, std::span<const LayerTerm> terms, int begin, int end,
              glm::vec3* pixels) {
    sum_rows_lanes(size, terms, begin, end, pixels);
}

} // namespace keystead
