// Adds a few points of one light to its layer: shadow, cosines, distance, reflection.
#include "surface.glsl"
#include "emitter.glsl"
#ifdef LENSED
#include "lens.glsl"
#endif

#ifdef ONE_POINT
// One point with at most one map: what software renderers draw, without loops and indexed uniforms.
const int most_points = 1;
const int most_maps = 1;
#else
const int most_points = 4;
const int most_maps = 12;
#endif

uniform sampler2DArrayShadow shadow_maps;
uniform vec3 eye;
uniform float pixel_slope;
uniform int light_index;
#ifdef ONE_POINT
const int point_count = 1;
#else
uniform int point_count;
#endif
uniform vec4 point_position[most_points]; // w: area, m²
uniform vec4 point_normal[most_points];   // w: exitance over the mean
uniform vec4 point_maps[most_points];     // x: first map, y: number of maps
uniform mat4 map_clip[most_maps];
uniform vec4 map_depth[most_maps];        // distance along the map's axis
uniform vec4 map_texel[most_maps];        // x: width of a texel at unit distance
uniform bool specular;
uniform bool skin_wrap;
uniform float ambient; // irradiance from everywhere: the work light's share that walls would send back

layout(location = 0) out vec4 radiance;

// Share of a point's light that reaches the surface: 2x2 comparisons, weighted by the sampler.
float lit_share(Surface s, int p) {
    int first = int(point_maps[p].x);
    int last = first + int(point_maps[p].y);
    for (int m = first; m < last; ++m) {
        float depth = dot(map_depth[m], vec4(s.position, 1.0));
        if (depth <= 0.0) {
            continue;
        }
        // Half a texel along the triangle's normal: back faces are in the map, so this is enough.
        vec3 moved = s.position + s.geometric * (0.5 * map_texel[m].x * depth);
        vec4 clip = map_clip[m] * vec4(moved, 1.0);
        vec3 place = 0.5 * clip.xyz / clip.w + 0.5;
        if (any(lessThan(place.xy, vec2(0.0))) || any(greaterThan(place.xy, vec2(1.0)))) {
            continue;
        }
        // A 32-bit depth reference is not clamped by the sampler.
        return texture(shadow_maps, vec4(place.xy, float(m), min(place.z, 1.0)));
    }
    return 1.0;
}

// The face mirrored in the cornea.
vec3 mirrored_in_eye(EmitterFace face, Surface s, vec3 v) {
    vec3 toward = reflect(-v, s.normal);
    if (dot(s.geometric, toward) <= 0.0) {
        return vec3(0.0);
    }
    float fresnel = s.f0 + (1.0 - s.f0) * grazing(max(dot(s.normal, v), 0.0));
    return vec3(fresnel * mirrored_face(face, s.position, toward, s.roughness,
                                        intensity_per_lumen(-toward)));
}

// Hair, eyes and the light's own face are drawn by a pass of their own, within their outline's box.
bool is_special(Surface s) {
    return s.finish == finish_hair || s.finish == finish_eye || s.emitting_light == light_index;
}

vec3 light_of_point(EmitterFace face, Surface s, vec3 v, int p, vec3 mirrored) {
    vec3 toward = point_position[p].xyz - s.position;
    float d2 = dot(toward, toward);
    vec3 l = toward * inversesqrt(d2);
    bool wrapped = skin_wrap && s.finish == finish_skin;
    if (dot(s.geometric, l) <= (wrapped ? -0.1 : 0.0)) {
        return vec3(0.0);
    }
    float sent = sample_radiance(face, point_position[p].xyz, point_normal[p].xyz, point_normal[p].w,
                                 -l, intensity_per_lumen(-l));
    if (sent <= 0.0) {
        return vec3(0.0);
    }
    float geometry = point_position[p].w * max(dot(point_normal[p].xyz, -l), 0.0) / d2;
    vec3 reflected = sent * geometry * reflection(s, v, l, specular, skin_wrap) + mirrored;
    return reflected * lit_share(s, p);
}

void main() {
    ivec2 pixel = ivec2(gl_FragCoord.xy);
    vec3 from = eye;
    float share = 1.0; // of the radiance that comes to the eye
#ifdef MIRRORED
    // The G-buffer holds what the lenses mirror; it is seen from the place on the lens.
    vec4 lens = lens_at(pixel);
    from = lens.xyz;
    share = specular ? abs(lens.w) : max(lens.w, 0.0);
    pixel = in_lens_box(pixel);
#elif defined(LENSED)
    share = seen_through(pixel);
#endif
    Surface s;
    if (share <= 0.0 || !read_surface(pixel, s)) {
        discard;
    }
    vec3 v = normalize(from - s.position);
    vec3 sum = vec3(0.0);
    vec3 mirrored = vec3(0.0);
    EmitterFace face = emitter_face();
#ifdef SPECIAL
#ifndef MIRRORED
    if (!is_special(s)) {
        discard;
    }
#endif
    if (s.emitting_light == light_index) {
        float footprint = pixel_slope * length(from - s.position);
        float sent = float(point_count) * seen_radiance(face, s.position, v, footprint,
                                                             intensity_per_lumen(v));
        radiance = vec4(vec3(share * sent), 1.0);
        return;
    }
    if (specular && s.finish == finish_eye) {
        mirrored = mirrored_in_eye(face, s, v);
    }
#else
    if (is_special(s)) {
        discard;
    }
#endif
    for (int p = 0; p < point_count; ++p) {
        sum += light_of_point(face, s, v, p, mirrored);
    }
    if (ambient > 0.0) {
        // More from above, as under a bright ceiling.
        sum += float(point_count) * s.albedo / pi * ambient * (0.75 + 0.25 * s.normal.y);
    }
    radiance = vec4(share * sum, 1.0);
}
