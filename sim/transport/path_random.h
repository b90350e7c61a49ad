// Numbers for paths, sixteen at a time: hashed, so that a path's numbers depend on
// nothing but its own place, sample and seed.
#pragma once

#include "sim/base/lane_words.h"

#include <cstdint>

namespace keystead::path_lanes {

using lanes::F16;
using lanes::M16;
using lanes::U16;
using lanes::V16;
using words_lanes::P16;

/// A good mixer of 32 bits (Wellons, "Prospecting for hash functions", 2018: lowbias32).
KEYSTEAD_INLINE U16 mixed(const U16& number) {
    U16 x = number;
    x = x ^ (x >> 16);
    x *= U16(0x7FEB352DU);
    x = x ^ (x >> 15);
    x *= U16(0x846CA68BU);
    return x ^ (x >> 16);
}
KEYSTEAD_INLINE U16 mixed(const U16& a, const U16& b) {
    return mixed(a ^ (mixed(b) + U16(0x9E3779B9U)));
}

/// 0..1, without either.
KEYSTEAD_INLINE F16 unit(const U16& x) {
    return (lanes::to_float(lanes::as_signed(x >> 8)) + F16(0.5F)) * F16(0x1p-24F);
}

/// A stream of numbers for each path.
struct Dice {
    U16 state;
    KEYSTEAD_INLINE F16 next() {
        state += U16(0x9E3779B9U);
        return unit(mixed(state));
    }
};

KEYSTEAD_INLINE U16 reversed(const U16& number) {
    U16 x = number;
    x = (x << 16) | (x >> 16);
    x = ((x & U16(0x00FF00FFU)) << 8) | ((x & U16(0xFF00FF00U)) >> 8);
    x = ((x & U16(0x0F0F0F0FU)) << 4) | ((x & U16(0xF0F0F0F0U)) >> 4);
    x = ((x & U16(0x33333333U)) << 2) | ((x & U16(0xCCCCCCCCU)) >> 2);
    return ((x & U16(0x55555555U)) << 1) | ((x & U16(0xAAAAAAAAU)) >> 1);
}

/// Nested uniform scrambling of numbers whose bits are in reverse order (Laine and Karras, 2011,
/// with the constants of Burley, "Practical hash-based Owen scrambling", 2020).
KEYSTEAD_INLINE U16 scrambled_reversed(const U16& number, const U16& seed) {
    U16 x = number;
    x = x ^ (x * U16(0x3D20ADEAU));
    x += seed;
    x *= (seed >> 16) | U16(1U);
    x = x ^ (x * U16(0x05526C56U));
    return x ^ (x * U16(0x53A22864U));
}

/// Place of element `i` of 0..count-1 after random permutations; `count` a power of two (after
/// Kensler, "Correlated multi-jittered sampling", 2013).
KEYSTEAD_INLINE U16 permuted(const U16& number, std::uint32_t count, const U16& seed) {
    U16 i = number;
    const U16 w(count - 1U);
    i = i ^ seed;
    i *= U16(0xE170893DU);
    i = i ^ (seed >> 16);
    i = i ^ ((i & w) >> 4);
    i = i ^ (seed >> 8);
    i *= U16(0x0929EB3FU);
    i = i ^ (seed >> 23);
    i = i ^ ((i & w) >> 1);
    i *= U16(1U) | (seed >> 27);
    i *= U16(0x6935FA69U);
    i = i ^ ((i & w) >> 11);
    i *= U16(0x74DCB303U);
    i = i ^ ((i & w) >> 2);
    i *= U16(0x9E501CC3U);
    i = i ^ ((i & w) >> 2);
    i *= U16(0xC860A3DFU);
    i = i & w;
    i = i ^ (i >> 5);
    return (i + seed) & w;
}

/// One number of each of `count` (a power of two) equal parts of 0..1 for the elements `i`.
KEYSTEAD_INLINE F16 stratum(const U16& i, std::uint32_t count, const U16& seed) {
    const U16 n = permuted(i, count, mixed(seed));
    const F16 place = lanes::to_float(lanes::as_signed(n)) + unit(mixed(i, seed));
    return place * (1.0F / static_cast<float>(count));
}

/// Element `i` of randomly scrambled sets of `count` (a power of two) points of the unit square in
/// which every elementary interval holds one point: Sobol's first two dimensions, Owen-scrambled.
/// Sets of different seeds are independent.
KEYSTEAD_INLINE P16 set_point(const U16& i, std::uint32_t count, const U16& seed) {
    const U16 n = permuted(i, count, mixed(seed));
    U16 second(0U); // rows of Pascal's triangle modulo two
    std::uint32_t direction = 1U << 31U;
    for (int bit = 0; (count - 1U) >> bit != 0; ++bit, direction ^= direction >> 1U)
        second = second ^ ((U16(0U) - ((n >> bit) & U16(1U))) & U16(direction));
    const U16 x = reversed(scrambled_reversed(n, mixed(seed + U16(1U))));
    const U16 y = reversed(scrambled_reversed(reversed(second), mixed(seed + U16(2U))));
    return {unit(x), unit(y)};
}

} // namespace keystead::path_lanes
