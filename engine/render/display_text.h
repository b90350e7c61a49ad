// shaders/shared/display.glsl as C++: the text the renderer compiles, for one float
// (`display_curve`) and for sixteen (`display_lanes`).
#pragma once

#include "sim/base/lanes.h"

#include <glm/glm.hpp>

#define KEYSTEAD_CPP 1
#define CONSTANT inline constexpr

namespace keystead::display_curve {
using Flat = float;
using Real = float;
using Real3 = glm::vec3;
using glm::max;
using glm::min;
using glm::pow;
template <class T>
T choose(bool condition, const T& yes, const T& no) {
    return condition ? yes : no;
}
#define SHARED inline
#include "shaders/shared/display.glsl"
#undef SHARED
} // namespace keystead::display_curve

namespace keystead::display_lanes {
using Flat = float;
using Real = lanes::F16;
using Real3 = lanes::V16;
using lanes::choose;
using lanes::max;
using lanes::min;
using lanes::pow;
#define SHARED KEYSTEAD_INLINE
#include "shaders/shared/display.glsl"
#undef SHARED
} // namespace keystead::display_lanes

#undef CONSTANT
#undef KEYSTEAD_CPP
