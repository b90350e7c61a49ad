// shaders/shared/display.glsl as C++ in float: the text the renderer compiles.
#pragma once

#include <glm/glm.hpp>

#define KEYSTEAD_CPP 1
#define SHARED inline

namespace keystead::display_curve {
using Real = float;
using Real3 = glm::vec3;
using glm::max;
using glm::min;
using glm::pow;
#include "shaders/shared/display.glsl"
} // namespace keystead::display_curve

#undef SHARED
#undef KEYSTEAD_CPP
