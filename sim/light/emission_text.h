// shaders/shared/emission.glsl, beam.glsl and emitter.glsl as C++: the text the renderer compiles, in
// float (`emission_float`, for comparing with pictures) and in double (`emission`, for readings).
#pragma once

#include "sim/base/shared_words.h"

#define KEYSTEAD_CPP 1
#define SHARED inline
#define CONSTANT inline constexpr

namespace keystead::emission {
using namespace words_double;
#include "shaders/shared/emission.glsl"

#include "shaders/shared/beam.glsl"

#include "shaders/shared/emitter.glsl"
} // namespace keystead::emission

namespace keystead::emission_float {
using namespace words_float;
#include "shaders/shared/emission.glsl"

#include "shaders/shared/beam.glsl"

#include "shaders/shared/emitter.glsl"
} // namespace keystead::emission_float

#undef CONSTANT
#undef SHARED
#undef KEYSTEAD_CPP
