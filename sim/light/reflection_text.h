// shaders/shared/reflection.glsl as C++: the text the renderer compiles, in double (`reflection`)
// and float (`reflection_float`).
#pragma once

#include <glm/glm.hpp>

#define KEYSTEAD_CPP 1
#define SHARED inline

namespace keystead::reflection {
using Real = double;
using Real3 = glm::dvec3;
using Mask = bool;
using Whole = int;
using glm::clamp;
using glm::dot;
using glm::max;
using glm::normalize;
using glm::pow;
using glm::smoothstep;
using glm::sqrt;
template <class T>
T choose(bool condition, const T& yes, const T& no) {
    return condition ? yes : no;
}
#include "shaders/shared/finish.glsl"

#include "shaders/shared/reflection.glsl"
} // namespace keystead::reflection

namespace keystead::reflection_float {
using Real = float;
using Real3 = glm::vec3;
using Mask = bool;
using Whole = int;
using glm::clamp;
using glm::dot;
using glm::max;
using glm::normalize;
using glm::pow;
using glm::smoothstep;
using glm::sqrt;
using reflection::choose;
#include "shaders/shared/finish.glsl"

#include "shaders/shared/reflection.glsl"
} // namespace keystead::reflection_float

#undef SHARED
#undef KEYSTEAD_CPP
