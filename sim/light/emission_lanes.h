// shaders/shared/emission.glsl, beam.glsl and emitter.glsl for sixteen directions at a time, and an
// emitter as they want it.
#pragma once

#include "sim/base/lane_words.h"
#include "sim/light/emission_text.h"
#include "sim/light/emitter.h"
#include "sim/light/measured.h"

#define KEYSTEAD_CPP 1
#define SHARED KEYSTEAD_INLINE
#define CONSTANT inline constexpr

namespace keystead::emission_lanes {
using namespace words_lanes;
#include "shaders/shared/emission.glsl"

#include "shaders/shared/beam.glsl"

#include "shaders/shared/emitter.glsl"
} // namespace keystead::emission_lanes

#undef CONSTANT
#undef SHARED
#undef KEYSTEAD_CPP

namespace keystead {

emission_lanes::EmitterFace lane_face(const Emitter& emitter);

/// Intensity for one lumen toward unit directions of the room, of an emitter whose `measured` is
/// not null; straight in between as intensity_per_lumen.
KEYSTEAD_INLINE lanes::F16 lane_intensity(const emission_lanes::EmitterFace& face,
                                          const DirectionTable& table,
                                          const lanes::V16& direction) {
    using lanes::F16;
    using lanes::I16;
    const lanes::V16 local = emission_lanes::in_face(face, direction);
    const F16 to_degrees = 57.29577951F;
    const F16 v = atan(sqrt(local.x * local.x + local.y * local.y), local.z) * to_degrees * 2.0F;
    F16 h = atan(local.y, local.x) * to_degrees / 5.0F;
    h = h + choose(h < F16(0.0F), F16(72.0F), F16(0.0F));
    const F16 angle = clamp(floor(v), 0.0F, float(DirectionTable::angles - 2));
    const F16 plane = clamp(floor(h), 0.0F, float(DirectionTable::planes - 2));
    const I16 first = to_int(plane) * I16(DirectionTable::angles) + to_int(angle);
    F16 corner[4];
    for (std::size_t i = 0; i < lanes::lane_count; ++i) {
        const float* at = table.per_lumen_sr.data() + first[i];
        corner[0].set(i, at[0]);
        corner[1].set(i, at[1]);
        corner[2].set(i, at[DirectionTable::angles]);
        corner[3].set(i, at[DirectionTable::angles + 1]);
    }
    const F16 a = v - angle;
    return mix(mix(corner[0], corner[1], a), mix(corner[2], corner[3], a), h - plane);
}

} // namespace keystead
