// shaders/shared/surface_noise.glsl for sixteen places at a time.
#pragma once

#include "sim/base/lane_words.h"
#include "sim/light/reflection_text.h"

#define KEYSTEAD_CPP 1
#define SHARED KEYSTEAD_INLINE

namespace keystead::noise_lanes {
using namespace words_lanes;
using reflection::finish_cloth;
using reflection::finish_floor;
using reflection::finish_paper;
using reflection::finish_skin;
#include "shaders/shared/surface_noise.glsl"
} // namespace keystead::noise_lanes

#undef SHARED
#undef KEYSTEAD_CPP
