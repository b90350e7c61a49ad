// shaders/shared/emission.glsl and beam.glsl as C++: the text the renderer compiles, in float
// (`emission_float`, for comparing with pictures) and in double (`emission`, for readings).
#pragma once

#include <glm/glm.hpp>

#define KEYSTEAD_CPP 1
#define SHARED inline

namespace keystead::emission {
using Real = double;
using Real2 = glm::dvec2;
using Real3 = glm::dvec3;
using Real4 = glm::dvec4;
using glm::abs;
using glm::atan;
using glm::clamp;
using glm::dot;
using glm::max;
using glm::min;
using glm::pow;
using glm::sqrt;
#include "shaders/shared/emission.glsl"

#include "shaders/shared/beam.glsl"
} // namespace keystead::emission

namespace keystead::emission_float {
using Real = float;
using Real2 = glm::vec2;
using Real3 = glm::vec3;
using Real4 = glm::vec4;
using glm::abs;
using glm::atan;
using glm::clamp;
using glm::dot;
using glm::max;
using glm::min;
using glm::pow;
using glm::sqrt;
#include "shaders/shared/emission.glsl"

#include "shaders/shared/beam.glsl"
} // namespace keystead::emission_float

#undef SHARED
#undef KEYSTEAD_CPP
