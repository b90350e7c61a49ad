// A light's emitting face: what it sends toward a place, and what it looks like.
#include "shared/emission.glsl"
#include "shared/beam.glsl"

// Fixed where a variant of a shader is made for one kind of light, so that it pays for no other.
#ifdef GRID_CELL
const int grid_cell = GRID_CELL;
#else
uniform int grid_cell;
#endif
#ifdef NO_CAP
const bool is_cap = false;
#else
const bool is_cap = true;
#endif

#ifdef PROFILE
const bool has_profile = true;
#else
const bool has_profile = false;
#endif
#ifdef FRONT
uniform FaceFront front;
#endif

uniform int emitter_shape;
uniform vec3 emitter_centre;
uniform mat3 emitter_axes;      // columns: width, height, outward
uniform vec2 emitter_half;      // half width and half height, m
uniform float emitter_inner;    // ring: inner over outer diameter
uniform float emitter_depth;    // umbrella: sagitta, m
uniform bool emitter_bulges;    // umbrella: convex side out
uniform float emitter_deflector; // ring left of a dish: deflector over dish
uniform vec3 beam;              // exponent, cut-off and its edge, radians
uniform float beam_gain;
uniform float emitter_hot_spot;
uniform float grid_width;       // m
uniform float grid_depth;       // m
uniform float grid_open;
uniform float grid_wall;

vec3 to_emitter(vec3 direction) { return direction * emitter_axes; }

bool bulging() { return is_cap && emitter_bulges && emitter_depth > 0.0; }

float grid_transmittance_toward(vec3 direction_in_face) {
    bool all_round = (emitter_shape == shape_bare && !has_profile) || bulging();
    if (all_round && grid_cell == cell_none) {
        return 1.0;
    }
    return grid_transmittance(grid_cell, grid_depth / max(grid_width, 1e-6), grid_open, grid_wall,
                              direction_in_face);
}

#ifdef MEASURED
uniform sampler2D measured; // intensity for one lumen: V by half degrees across, H by 5° up

// The same interpolation as sim/light/measured.cpp's.
float intensity_per_lumen(vec3 w) {
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
#endif

// Gain and profile of the beam; `leaving` is the cosine at the place it leaves.
float profile_toward(vec3 direction_in_face, float leaving) {
#ifdef MEASURED
    // Radiance that makes this intensity on the area seen from there.
    float per_lumen = intensity_per_lumen(direction_in_face);
    return emitter_shape == shape_bare
               ? 4.0 * emission_pi * per_lumen
               : emission_pi * per_lumen / max(direction_in_face.z, 1e-4);
#endif
    if (bulging()) {
        return beam_gain * gathering(beam.x, leaving);
    }
    if (!has_profile) {
        return beam_gain;
    }
    return beam_gain * beam_profile(beam.x, beam.y, beam.z, direction_in_face);
}

// Is anything on the face's front in the way of light from a place of it? Both in the face's frame.
bool front_hides(vec3 at, vec3 direction_in_face) {
#ifdef FRONT
    return !clears_front(front, emitter_shape, at, direction_in_face);
#else
    return false;
#endif
}

// Relative radiance (exitance 1) of a sample on the face toward unit `direction`.
float sample_radiance(vec3 position, vec3 normal, float relative, vec3 direction) {
    if (dot(normal, direction) <= 0.0) {
        return 0.0;
    }
    vec3 local = to_emitter(direction);
    vec3 at = to_emitter(position - emitter_centre);
    if (is_cap && emitter_depth > 0.0 && !emitter_bulges &&
        !leaves_cap(at, local, emitter_half.x, emitter_depth)) {
        return 0.0;
    }
    if (front_hides(at, local)) {
        return 0.0;
    }
    return relative / emission_pi * profile_toward(local, dot(normal, direction)) *
           grid_transmittance_toward(local);
}

// One cell of the grid as the eye sees it, at place `at` of the face (m) along `direction`: into the
// wall or onto it is black. Its mean over the face is the transmittance.
float seen_through_cell(vec2 at, vec3 direction) {
    float pitch = grid_width / sqrt(grid_open);
    vec2 cell = (fract(at / pitch + 0.5) - 0.5) * pitch;
    vec2 far_end = cell - direction.xy / direction.z * grid_depth;
    if (grid_cell == cell_square) {
        vec2 outer = max(abs(cell), abs(far_end));
        return max(outer.x, outer.y) <= 0.5 * grid_width ? 1.0 : 0.0;
    }
    // Round cells lie in rows, every other one moved by half.
    float row = floor(at.y / (0.8660254 * pitch) + 0.5);
    float shift = 0.5 * mod(row, 2.0);
    cell = vec2((fract(at.x / pitch + shift + 0.5) - 0.5) * pitch, at.y - row * 0.8660254 * pitch);
    far_end = cell - direction.xy / direction.z * grid_depth;
    float radius = 0.5 * grid_width;
    bool open_cell = dot(cell, cell) <= radius * radius && dot(far_end, far_end) <= radius * radius;
    // Circles cover less of the plane than thin-walled cells do: brighter, so that the mean holds.
    return open_cell ? grid_open / (0.9068997 * radius * radius * 4.0 / (pitch * pitch)) : 0.0;
}

// The same with what the walls send on.
float seen_cell(vec2 at, vec3 direction) {
    float open_cell = seen_through_cell(at, direction);
    return open_cell + grid_wall * max(0.0, grid_open - open_cell);
}

// Normal of the face at a place, in its frame.
vec3 face_normal(vec3 at) {
    if (!bulging()) {
        return vec3(0.0, 0.0, 1.0);
    }
    float radius = 0.5 * (emitter_half.x * emitter_half.x / emitter_depth + emitter_depth);
    return normalize(vec3(at.xy, at.z + radius - emitter_depth));
}

// Relative radiance of the face at a visible place toward unit `direction` (to the eye).
float seen_radiance(vec3 position, vec3 direction, float footprint_m) {
    vec3 at = to_emitter(position - emitter_centre);
    vec3 local = to_emitter(direction);
    if (emitter_shape == shape_bare) {
        // A ball glows whichever way the beam goes; behind a profile it is as bright as that.
        return profile_toward(local, 1.0) / emission_pi;
    }
    float leaving = dot(face_normal(at), local);
    if (leaving <= 0.0 || front_hides(at, local)) {
        return 0.0;
    }
    float sagitta = emitter_depth / max(emitter_half.x, 1e-6);
    float relative = hot_spot_factor(emitter_shape, emitter_hot_spot, at.xy / emitter_half,
                                     emitter_inner, emitter_shape == shape_umbrella ? sagitta : 0.0);
    if (emitter_deflector > 0.0) {
        relative = relative * (1.0 - emitter_deflector * emitter_deflector) +
                   deflected(length(at.xy / emitter_half), emitter_deflector);
    }
    float through = grid_transmittance_toward(local);
    if (grid_cell != cell_none) {
        float shown = clamp(grid_width / max(footprint_m, 1e-6) - 1.5, 0.0, 1.0);
        through = mix(through, seen_cell(at.xy, local), shown);
    }
    return relative / emission_pi * profile_toward(local, leaving) * through;
}

// Is a place of the face's plane inside its outline? 1 inside, 0 outside, soft over `blur` (m).
float on_face(vec2 at, float blur) {
    vec2 q = at / emitter_half;
    float inside = 0.0; // distance to the outline, m, positive inside
    if (emitter_shape == shape_rectangle) {
        vec2 edge = emitter_half - abs(at);
        inside = min(edge.x, edge.y);
    } else if (emitter_shape == shape_octagon) {
        vec2 a = abs(q);
        float apothem = max(max(a.x, a.y), (a.x + a.y) * 0.70710678);
        inside = (1.0 - apothem) * emitter_half.x;
    } else {
        float r = length(q);
        inside = (1.0 - r) * emitter_half.x;
        if (emitter_shape == shape_ring) {
            inside = min(inside, (r - emitter_inner) * emitter_half.x);
        }
    }
    return smoothstep(-blur, blur, inside);
}
