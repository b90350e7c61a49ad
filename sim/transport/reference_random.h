// Numbers for the reference's paths: hashed, so that a path's numbers depend on nothing but its own
// pixel, sample and seed.
#pragma once

#include "sim/base/vec.h"

#include <bit>
#include <cstdint>

namespace keystead::reference {

/// A good mixer of 32 bits (Wellons, "Prospecting for hash functions", 2018: lowbias32).
inline std::uint32_t mixed(std::uint32_t x) {
    x ^= x >> 16U;
    x *= 0x7FEB352DU;
    x ^= x >> 15U;
    x *= 0x846CA68BU;
    return x ^ (x >> 16U);
}
inline std::uint32_t mixed(std::uint32_t a, std::uint32_t b) {
    return mixed(a ^ (mixed(b) + 0x9E3779B9U));
}

inline float unit(std::uint32_t x) {
    return (static_cast<float>(x >> 8U) + 0.5F) * 0x1p-24F;
}

/// A stream of numbers for one path.
struct Dice {
    std::uint32_t state = 0;
    float next() {
        state += 0x9E3779B9U;
        return unit(mixed(state));
    }
};

inline std::uint32_t reversed(std::uint32_t x) {
    x = (x << 16U) | (x >> 16U);
    x = ((x & 0x00FF00FFU) << 8U) | ((x & 0xFF00FF00U) >> 8U);
    x = ((x & 0x0F0F0F0FU) << 4U) | ((x & 0xF0F0F0F0U) >> 4U);
    x = ((x & 0x33333333U) << 2U) | ((x & 0xCCCCCCCCU) >> 2U);
    return ((x & 0x55555555U) << 1U) | ((x & 0xAAAAAAAAU) >> 1U);
}

/// Nested uniform scrambling of a number whose bits are in reverse order (Laine and Karras, 2011,
/// with the constants of Burley, "Practical hash-based Owen scrambling", 2020).
inline std::uint32_t scrambled_reversed(std::uint32_t x, std::uint32_t seed) {
    x ^= x * 0x3D20ADEAU;
    x += seed;
    x *= (seed >> 16U) | 1U;
    x ^= x * 0x05526C56U;
    return x ^ (x * 0x53A22864U);
}

/// Place of element `i` of 0..count-1 after a random permutation; `count` a power of two (after
/// Kensler, "Correlated multi-jittered sampling", 2013).
inline std::uint32_t permuted(std::uint32_t i, std::uint32_t count, std::uint32_t seed) {
    const std::uint32_t w = count - 1U;
    i ^= seed;
    i *= 0xE170893DU;
    i ^= seed >> 16U;
    i ^= (i & w) >> 4U;
    i ^= seed >> 8U;
    i *= 0x0929EB3FU;
    i ^= seed >> 23U;
    i ^= (i & w) >> 1U;
    i *= 1U | seed >> 27U;
    i *= 0x6935FA69U;
    i ^= (i & w) >> 11U;
    i *= 0x74DCB303U;
    i ^= (i & w) >> 2U;
    i *= 0x9E501CC3U;
    i ^= (i & w) >> 2U;
    i *= 0xC860A3DFU;
    i &= w;
    i ^= i >> 5U;
    return (i + seed) & w;
}

/// Element `i` of a randomly scrambled set of `count` (a power of two) points of the unit square in
/// which every elementary interval holds one point: Sobol's first two dimensions, Owen-scrambled.
/// Sets of different seeds are independent.
inline glm::vec2 set_point(std::uint32_t i, std::uint32_t count, std::uint32_t seed) {
    const std::uint32_t n = permuted(i, count, mixed(seed));
    std::uint32_t second = 0; // rows of Pascal's triangle modulo two
    std::uint32_t direction = 1U << 31U;
    for (std::uint32_t rest = n; rest != 0; rest >>= 1U, direction ^= direction >> 1U)
        if ((rest & 1U) != 0) second ^= direction;
    const std::uint32_t x = reversed(scrambled_reversed(n, mixed(seed + 1U)));
    const std::uint32_t y = reversed(scrambled_reversed(reversed(second), mixed(seed + 2U)));
    return {unit(x), unit(y)};
}

} // namespace keystead::reference
