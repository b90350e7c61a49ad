// Reading the G-buffer back.
#include "octahedral.glsl"
#include "shared/finish.glsl"
#include "shared/surface_noise.glsl"
#include "reflection.glsl"

uniform sampler2D g_position;
uniform sampler2D g_normals;
uniform sampler2D g_surface;
uniform sampler2D g_tangent;
uniform sampler2D materials;

// False where the pixel sees nothing.
bool read_surface(ivec2 pixel, out Surface s) {
    vec4 position = texelFetch(g_position, pixel, 0);
    if (position.w < 0.5) {
        return false;
    }
    vec4 normals = texelFetch(g_normals, pixel, 0);
    vec4 surface = texelFetch(g_surface, pixel, 0);
#ifdef MIRRORED
    vec2 tangent = vec2(0.0); // nothing that a lens mirrors is looked at so closely
#else
    vec2 tangent = texelFetch(g_tangent, pixel, 0).xy;
#endif
    int part = int(position.w + 0.5) - 1;
    vec4 material = texelFetch(materials, ivec2(part & 255, part >> 8), 0);
    s.position = position.xyz;
    s.geometric = from_octahedral(normals.xy);
    s.normal = from_octahedral(normals.zw);
    s.tangent = tangent == vec2(0.0) ? vec3(0.0) : from_octahedral(tangent);
    s.albedo = surface.rgb;
    s.roughness = surface.a;
    s.f0 = material.x;
    s.metal = material.y > 0.5;
    s.finish = int(material.z + 0.5);
    s.emitting_light = int(floor(material.w + 0.5));
    return true;
}
