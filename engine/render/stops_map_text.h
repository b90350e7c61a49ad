// shaders/shared/stops_map.glsl as C++ in float: the text the renderer compiles.
#pragma once

#include <algorithm>
#include <cmath>
#include <glm/glm.hpp>

#define KEYSTEAD_CPP 1
#define SHARED inline

namespace keystead::stops_map {
using Real = float;
using Real3 = glm::vec3;
using std::abs;
using std::floor;
using std::log2;
using std::max;
using std::min;
#include "shaders/shared/stops_map.glsl"
} // namespace keystead::stops_map

#undef SHARED
#undef KEYSTEAD_CPP
