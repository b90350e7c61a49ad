// A light's emitting face: what it sends toward a place, and what it looks like.
#include "shared/emission.glsl"

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

uniform int emitter_shape;
uniform vec3 emitter_centre;
uniform mat3 emitter_axes;      // columns: width, height, outward
uniform vec2 emitter_half;      // half width and half height, m
uniform float emitter_inner;    // ring: inner over outer diameter
uniform float emitter_depth;    // umbrella: sagitta, m
uniform float emitter_hot_spot;
uniform float grid_width;       // m
uniform float grid_depth;       // m
uniform float grid_open;

vec3 to_emitter(vec3 direction) { return direction * emitter_axes; }

float grid_transmittance_toward(vec3 direction_in_face) {
    if (emitter_shape == shape_bare && grid_cell == cell_none) {
        return 1.0;
    }
    return grid_transmittance(grid_cell, grid_depth / max(grid_width, 1e-6), grid_open,
                              direction_in_face);
}

// Relative radiance (exitance 1) of a sample on the face toward unit `direction`.
float sample_radiance(vec3 position, vec3 normal, float relative, vec3 direction) {
    if (dot(normal, direction) <= 0.0) {
        return 0.0;
    }
    vec3 local = to_emitter(direction);
    if (is_cap && emitter_shape == shape_umbrella && emitter_depth > 0.0 &&
        !leaves_cap(to_emitter(position - emitter_centre), local, emitter_half.x, emitter_depth)) {
        return 0.0;
    }
    return relative / emission_pi * grid_transmittance_toward(local);
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

// Relative radiance of the face at a visible place toward unit `direction` (to the eye).
float seen_radiance(vec3 position, vec3 direction, float footprint_m) {
    vec3 at = to_emitter(position - emitter_centre);
    vec3 local = to_emitter(direction);
    if (emitter_shape == shape_bare) {
        return 1.0 / emission_pi;
    }
    if (local.z <= 0.0) {
        return 0.0;
    }
    float sagitta = emitter_depth / max(emitter_half.x, 1e-6);
    float relative = hot_spot_factor(emitter_shape, emitter_hot_spot, at.xy / emitter_half,
                                     emitter_inner, emitter_shape == shape_umbrella ? sagitta : 0.0);
    float through = grid_transmittance_toward(local);
    if (grid_cell != cell_none) {
        float shown = clamp(grid_width / max(footprint_m, 1e-6) - 1.5, 0.0, 1.0);
        through = mix(through, seen_through_cell(at.xy, local), shown);
    }
    return relative / emission_pi * through;
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
