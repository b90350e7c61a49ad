// Small unevenness that real surfaces have. Means are kept: noise is symmetric about 1, so that the
// reflectance of an area is the document's. It fades out where it is finer than a pixel.

#include "shared/finish.glsl"

uint hashed(uvec3 p) {
    uint h = p.x * 0x8DA6B343u ^ p.y * 0xD8163841u ^ p.z * 0xCB1AB31Fu;
    h ^= h >> 15;
    h *= 0x2C1B3C6Du;
    h ^= h >> 12;
    h *= 0x297A2D39u;
    return h ^ (h >> 15);
}

float corner_value(ivec3 p) {
    return float(hashed(uvec3(p)) & 0xFFFFu) / 32767.5 - 1.0;
}

// Value noise, -1..1, mean 0.
float smooth_noise(vec3 p) {
    ivec3 cell = ivec3(floor(p));
    vec3 f = p - vec3(cell);
    f = f * f * (3.0 - 2.0 * f);
    float low = mix(mix(corner_value(cell), corner_value(cell + ivec3(1, 0, 0)), f.x),
                    mix(corner_value(cell + ivec3(0, 1, 0)), corner_value(cell + ivec3(1, 1, 0)), f.x),
                    f.y);
    cell.z += 1;
    float high = mix(mix(corner_value(cell), corner_value(cell + ivec3(1, 0, 0)), f.x),
                     mix(corner_value(cell + ivec3(0, 1, 0)), corner_value(cell + ivec3(1, 1, 0)), f.x),
                     f.y);
    return mix(low, high, f.z);
}

// Noise of a grain size in metres, gone where the grain is finer than a pixel.
float grain(vec3 position_m, float size_m, float footprint_m) {
    float shown = clamp(size_m / footprint_m - 0.7, 0.0, 1.0);
    return shown > 0.0 ? shown * smooth_noise(position_m / size_m) : 0.0;
}

// Strands: noise drawn out along the grain (line integral convolution), -1..1, mean 0. Works on any
// field of tangents, with no coordinate along the hair. `width_m` is that of a lock, not of a hair.
float strands(vec3 position_m, vec3 tangent, float width_m, float footprint_m) {
    float shown = clamp(1.6 * width_m / footprint_m - 0.7, 0.0, 1.0);
    if (shown <= 0.0) {
        return 0.0;
    }
    float sum = 0.0;
    for (int i = -5; i <= 5; ++i) {
        sum += smooth_noise((position_m + tangent * (float(i) * 1.1 * width_m)) / width_m);
    }
    // The mean of eleven loses contrast; bring it back.
    return shown * clamp(sum * (2.6 / 11.0), -1.0, 1.0);
}

// Albedo and highlights of hair: light and dark locks, and each lock turned a little its own way.
float hair_tone(vec3 position_m, vec3 tangent, float footprint_m) {
    return 0.45 * strands(position_m, tangent, 0.0011, footprint_m) +
           0.30 * strands(position_m + 7.0, tangent, 0.0032, footprint_m);
}

vec4 varied_surface(int finish, vec4 surface, vec3 p, float footprint_m) {
    float tone = 0.0;
    float rough = 0.0;
    if (finish == finish_cloth) {
        tone = 0.10 * grain(p, 0.0013, footprint_m) + 0.05 * grain(p, 0.011, footprint_m);
        rough = 0.05 * grain(p, 0.004, footprint_m);
    } else if (finish == finish_paper) {
        tone = 0.012 * grain(p, 0.35, footprint_m) + 0.006 * grain(p, 0.004, footprint_m);
    } else if (finish == finish_floor) {
        tone = 0.07 * grain(p, 0.60, footprint_m) + 0.06 * grain(p, 0.045, footprint_m);
        rough = 0.16 * grain(p, 0.40, footprint_m) + 0.12 * grain(p, 0.03, footprint_m);
    } else if (finish == finish_skin) {
        tone = 0.025 * grain(p, 0.007, footprint_m) + 0.025 * grain(p, 0.0016, footprint_m);
        rough = 0.08 * grain(p, 0.0012, footprint_m) + 0.05 * grain(p, 0.015, footprint_m);
    }
    return vec4(surface.rgb * (1.0 + tone), clamp(surface.a * (1.0 + rough), 0.02, 1.0));
}
