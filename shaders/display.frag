// Linear radiance to display codes.
#include "shared/display.glsl"

uniform sampler2D linear_sum;
uniform float exposure;
uniform bool soft;
uniform bool dither;

layout(location = 0) out vec4 shown;

// Triangular noise would be rounder; ±0.45 code of even noise breaks bands without being seen.
float dither_code(uvec2 p) {
    uint h = p.x * 0x9E3779B1u ^ p.y * 0x85EBCA77u;
    h ^= h >> 15;
    h *= 0x2C1B3C6Du;
    h ^= h >> 12;
    h *= 0x297A2D39u;
    h ^= h >> 15;
    return (float(h & 0xFFFFu) / 65535.0 - 0.5) * 0.9;
}

void main() {
    ivec2 pixel = ivec2(gl_FragCoord.xy);
    vec3 code = display_encoded(exposure * texelFetch(linear_sum, pixel, 0).rgb, soft);
    if (dither) {
        code += dither_code(uvec2(pixel)) / 255.0;
    }
    shown = vec4(code, 1.0);
}
