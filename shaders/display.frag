// Linear radiance to display codes.
#include "shared/display.glsl"
#include "shared/stops_map.glsl"

uniform sampler2D linear_sum;
uniform float exposure;
uniform mat3 balance;
uniform bool soft;
uniform float print_contrast;
uniform bool dither;
uniform bool as_stops;
uniform bool clipping;
uniform float face_tone;
uniform float full_tone;
uniform int mark_px;

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

vec3 exposed_at(ivec2 pixel) {
    ivec2 inside = clamp(pixel, ivec2(0), textureSize(linear_sum, 0) - 1);
    return exposure * (balance * texelFetch(linear_sum, inside, 0).rgb);
}

float band_at(ivec2 pixel) {
    return stop_band(stops_of_tone(luminance_of(exposed_at(pixel)), face_tone));
}

// Bands with a thin line where they meet; the line about the face's own band is twice as wide.
vec3 map_code(ivec2 pixel) {
    float band = band_at(pixel);
    vec3 code = srgb_encoded3(stop_band_colour(band));
    int reach = max(1, mark_px / 8);
    for (int step = 1; step <= 2 * reach; ++step) {
        float right = band_at(pixel + ivec2(step, 0));
        float above = band_at(pixel + ivec2(0, step));
        bool face = band == 0.0 || right == 0.0 || above == 0.0;
        if ((right != band || above != band) && (step <= reach || face)) {
            return 0.45 * code;
        }
    }
    return code;
}

// Stripes where a channel fills the sensor, dots where what is left would print as black: shapes,
// so that nobody needs to tell colours apart.
vec3 marked(vec3 code, vec3 exposed, ivec2 pixel) {
    float most = max(exposed.r, max(exposed.g, exposed.b));
    int half_px = max(1, mark_px / 2);
    if (most >= full_tone) {
        return vec3(((pixel.x + pixel.y) / half_px) % 2 == 0 ? 0.0 : 1.0);
    }
    ivec2 place = pixel % mark_px;
    int dot_px = max(1, mark_px / 4);
    if (most < black_tone && place.x < dot_px && place.y < dot_px) {
        return vec3(0.75);
    }
    return code;
}

void main() {
    ivec2 pixel = ivec2(gl_FragCoord.xy);
    vec3 exposed = exposed_at(pixel);
    vec3 code = as_stops ? map_code(pixel) : display_encoded(printed(exposed, print_contrast), soft);
    if (clipping) {
        code = marked(code, exposed, pixel);
    }
    if (dither && !as_stops) {
        code += dither_code(uvec2(pixel)) / 255.0;
    }
    shown = vec4(code, 1.0);
}
