// Writes what a pixel sees: place, both normals, albedo and roughness, direction of the grain.
#include "octahedral.glsl"
#include "shared/finish.glsl"
#include "shared/surface_noise.glsl"

in vec3 v_position;
in vec3 v_from_eye;
in vec3 v_normal;
in vec4 v_colour;
in vec3 v_tangent;

uniform int part;
uniform int finish;
uniform float pixel_slope;

layout(location = 0) out vec4 g_position;
layout(location = 1) out vec4 g_normals;
layout(location = 2) out vec4 g_surface;
layout(location = 3) out vec2 g_tangent;

void main() {
    // The plane of the triangle, turned to the eye. Differences are taken of small numbers.
    vec3 geometric = normalize(cross(dFdx(v_from_eye), dFdy(v_from_eye)));
    if (dot(geometric, v_from_eye) > 0.0) {
        geometric = -geometric;
    }
    vec3 shading = geometric;
    if (dot(v_normal, v_normal) > 0.25) {
        shading = normalize(v_normal);
        if (finish == finish_hair) {
            // A strand's band says nothing about which way the hair there faces.
            geometric = shading;
        } else if (dot(shading, geometric) < 0.0) {
            shading = -shading;
        }
    }
    float footprint = pixel_slope * length(v_from_eye);
    vec2 variation = surface_variation(finish, v_position, footprint);
    vec4 surface = vec4(v_colour.rgb * (1.0 + variation.x),
                        clamp(v_colour.a * (1.0 + variation.y), 0.02, 1.0));
    vec3 tangent = vec3(0.0);
    if (finish == finish_hair && dot(v_tangent, v_tangent) > 0.25) {
        tangent = normalize(v_tangent);
        float tone = hair_tone(v_position, tangent, footprint);
        surface.rgb *= 1.0 + tone;
        // Locks stand out of the surface: their own tilt breaks the highlight up.
        tangent = normalize(tangent + 0.22 * tone * shading);
        shading = normalize(shading + 0.25 * tone * cross(tangent, shading));
    }
    g_position = vec4(v_position, float(part + 1));
    g_normals = vec4(octahedral(geometric), octahedral(shading));
    g_surface = surface;
    g_tangent = tangent == vec3(0.0) ? vec2(0.0) : octahedral(tangent);
}
