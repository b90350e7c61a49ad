// The words of the texts that GLSL and C++ share (shaders/shared/words.glsl), for sixteen numbers
// at a time. Texts are included with SHARED defined as KEYSTEAD_INLINE: they become part of the
// kernel.
#pragma once

#include "sim/base/lanes.h"

#include <cmath>

namespace keystead::words_lanes {

struct P16 {
    lanes::F16 x, y;
    P16() = default;
    KEYSTEAD_INLINE P16(const lanes::F16& a, const lanes::F16& b)
        : x(a)
        , y(b) {}
};

using Real = lanes::F16;
using Real2 = P16;
using Real3 = lanes::V16;
using Flat = float;
using Flat2 = glm::vec2;
using Flat3 = glm::vec3;
using Flat4 = glm::vec4;
using Mask = lanes::M16;
using Whole = lanes::I16;
using Uint = lanes::U16;

using lanes::abs;
using lanes::as_signed;
using lanes::as_unsigned;
using lanes::atan;
using lanes::choose;
using lanes::clamp;
using lanes::dot;
using lanes::floor;
using lanes::fract;
using lanes::max;
using lanes::min;
using lanes::normalize;
using lanes::pow;
using lanes::smoothstep;
using lanes::sqrt;
using lanes::to_float;
using lanes::to_int;

KEYSTEAD_INLINE bool some(const Mask& condition) {
    return lanes::any(condition);
}

// Of numbers that all lanes share.
KEYSTEAD_INLINE float min(float a, float b) {
    return a < b ? a : b;
}
KEYSTEAD_INLINE float max(float a, float b) {
    return a > b ? a : b;
}
KEYSTEAD_INLINE float sqrt(float a) {
    return std::sqrt(a);
}

} // namespace keystead::words_lanes
