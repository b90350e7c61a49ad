// The words of the texts that GLSL and C++ share (shaders/shared/words.glsl), for one number in
// double and in float. A header that includes such a text opens a namespace of its own, uses one of
// these, and sets SHARED and CONSTANT around it. Sixteen numbers: sim/base/lane_words.h.
#pragma once

#include <cstdint>
#include <glm/glm.hpp>

namespace keystead::words {

using glm::abs;
using glm::atan;
using glm::clamp;
using glm::dot;
using glm::floor;
using glm::fract;
using glm::max;
using glm::min;
using glm::normalize;
using glm::pow;
using glm::smoothstep;
using glm::sqrt;

using Mask = bool;
using Whole = std::int32_t;
using Uint = std::uint32_t;

template <class T>
T choose(bool condition, const T& yes, const T& no) {
    return condition ? yes : no;
}
inline bool some(bool condition) {
    return condition;
}
inline Uint as_unsigned(Whole number) {
    return static_cast<Uint>(number);
}
inline Whole as_signed(Uint number) {
    return static_cast<Whole>(number);
}

} // namespace keystead::words

namespace keystead::words_double {
using namespace words;
using Real = double;
using Real2 = glm::dvec2;
using Real3 = glm::dvec3;
using Flat = double;
using Flat2 = glm::dvec2;
using Flat3 = glm::dvec3;
using Flat4 = glm::dvec4;
inline Whole to_int(double number) {
    return static_cast<Whole>(number);
}
inline double to_float(Whole number) {
    return static_cast<double>(number);
}
} // namespace keystead::words_double

namespace keystead::words_float {
using namespace words;
using Real = float;
using Real2 = glm::vec2;
using Real3 = glm::vec3;
using Flat = float;
using Flat2 = glm::vec2;
using Flat3 = glm::vec3;
using Flat4 = glm::vec4;
inline Whole to_int(float number) {
    return static_cast<Whole>(number);
}
inline float to_float(Whole number) {
    return static_cast<float>(number);
}
} // namespace keystead::words_float
