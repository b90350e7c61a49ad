// Reflection of baked irradiance, taken for even, where this surface is the one the pixel sees.
#include "surface.glsl"
#include "lens.glsl"

in vec3 v_position;
in vec3 v_first;
in vec3 v_second;
in vec3 v_third;
in vec3 v_fourth;

uniform int part;
uniform vec3 eye;
uniform bool specular;

layout(location = 0) out vec4 first;
layout(location = 1) out vec4 second;
layout(location = 2) out vec4 third;
layout(location = 3) out vec4 fourth;

void main() {
    ivec2 pixel = ivec2(gl_FragCoord.xy);
    vec4 seen = texelFetch(g_position, pixel, 0);
    // The same surface, not one behind it: no depth map of this sub-pixel place is kept.
    if (int(seen.w + 0.5) != part + 1 ||
        distance(seen.xyz, v_position) > 1e-4 * distance(seen.xyz, eye)) {
        discard;
    }
    Surface s;
    if (!read_surface(pixel, s)) {
        discard;
    }
    vec3 v = normalize(eye - s.position);
    // What a cornea mirrors is drawn for itself.
    vec3 reflected = seen_through(pixel) * even_reflectance(s, v, specular && s.finish != finish_eye) / pi;
    first = vec4(reflected * v_first, 1.0);
    second = vec4(reflected * v_second, 1.0);
    third = vec4(reflected * v_third, 1.0);
    fourth = vec4(reflected * v_fourth, 1.0);
}
