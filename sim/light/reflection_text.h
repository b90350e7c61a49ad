// shaders/shared/reflection.glsl as C++: the text the renderer compiles, in double (`reflection`),
// float (`reflection_float`) and sixteen floats (`reflection_lanes`).
#pragma once

#include "sim/base/lanes.h"

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
#define SHARED KEYSTEAD_INLINE

namespace keystead::reflection_lanes {
using Real = lanes::F16;
using Real3 = lanes::V16;
using Mask = lanes::M16;
using Whole = lanes::I16;
using lanes::choose;
using lanes::clamp;
using lanes::dot;
using lanes::max;
using lanes::normalize;
using lanes::pow;
using lanes::smoothstep;
using lanes::sqrt;
using reflection::finish_eye;
using reflection::finish_hair;
using reflection::finish_skin;
#include "shaders/shared/reflection.glsl"
} // namespace keystead::reflection_lanes

#undef SHARED
#undef KEYSTEAD_CPP
