// A light's emitting face as a shader has it: one variant for each kind of light, so that it pays for
// no other.
#include "shared/emission.glsl"
#include "shared/beam.glsl"
#include "shared/emitter.glsl"

uniform EmitterFace emitter;

EmitterFace emitter_face() {
    EmitterFace face = emitter;
#ifdef GRID_CELL
    face.cell = GRID_CELL;
#endif
#ifdef NO_CAP
    face.depth = 0.0;
#endif
#ifdef PROFILE
    face.profiled = true;
#else
    face.profiled = false;
#endif
#ifdef MEASURED
    face.measured = true;
#else
    face.measured = false;
#endif
#ifdef FRONT
    face.fronted = true;
#else
    face.fronted = false;
#endif
    return face;
}

#ifdef MEASURED
uniform sampler2D measured; // intensity for one lumen: V by half degrees across, H by 5° up

// The same interpolation as sim/light/measured.cpp's.
float intensity_per_lumen(vec3 direction) {
    vec3 w = in_face(emitter, direction);
    float v = degrees(atan(length(w.xy), w.z)) * 2.0;
    float h = degrees(atan(w.y, w.x)) / 5.0;
    h = h < 0.0 ? h + 72.0 : h;
    ivec2 at = clamp(ivec2(int(v), int(h)), ivec2(0), ivec2(359, 71));
    vec2 part = vec2(v, h) - vec2(at);
    vec2 low = vec2(texelFetch(measured, at, 0).r, texelFetch(measured, at + ivec2(1, 0), 0).r);
    vec2 high =
        vec2(texelFetch(measured, at + ivec2(0, 1), 0).r, texelFetch(measured, at + ivec2(1), 0).r);
    vec2 between = mix(low, high, part.y);
    return mix(between.x, between.y, part.x);
}
#else
float intensity_per_lumen(vec3 direction) { return 0.0; }
#endif
