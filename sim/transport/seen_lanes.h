// Packing and unpacking of seen blocks, sixteen lanes at a time; for kernels only.
#pragma once

#include "sim/transport/seen_data.h"

namespace keystead::seen_lanes {

using lanes::F16;
using lanes::I16;
using lanes::M16;
using lanes::U16;
using lanes::V16;

using Shorts [[gnu::vector_size(32)]] = std::uint16_t;

KEYSTEAD_INLINE U16 load_bits(const std::uint32_t* from) {
    U16 bits;
    __builtin_memcpy(&bits.v, from, sizeof bits.v);
    return bits;
}
KEYSTEAD_INLINE void store_bits(std::uint32_t* to, const U16& bits) {
    __builtin_memcpy(to, &bits.v, sizeof bits.v);
}
KEYSTEAD_INLINE U16 load_shorts(const std::uint16_t* from) {
    Shorts values;
    __builtin_memcpy(&values, from, sizeof values);
    return U16(__builtin_convertvector(values, lanes::UintVector));
}
KEYSTEAD_INLINE void store_shorts(std::uint16_t* to, const U16& bits) {
    const Shorts values = __builtin_convertvector(bits.v, Shorts);
    __builtin_memcpy(to, &values, sizeof values);
}

/// Numbers 0..1 in sixteen bits.
KEYSTEAD_INLINE U16 sixteen_bits(const F16& share) {
    return as_unsigned(to_int(clamp(share, 0.0F, 1.0F) * 65535.0F + 0.5F));
}
KEYSTEAD_INLINE F16 share_of(const U16& bits) {
    return to_float(as_signed(bits)) * F16(1.0F / 65535.0F);
}

/// Unit vectors: the octahedron unfolded into a square (shaders/octahedral.glsl).
KEYSTEAD_INLINE U16 octahedral(const V16& n) {
    const F16 scale = F16(1.0F) / (abs(n.x) + abs(n.y) + abs(n.z));
    const F16 px = n.x * scale, py = n.y * scale;
    const F16 fold_x = F16(1.0F) - abs(py), fold_y = F16(1.0F) - abs(px);
    const M16 upper = n.z >= F16(0.0F);
    const F16 x = choose(upper, px, choose(px >= F16(0.0F), fold_x, -fold_x));
    const F16 y = choose(upper, py, choose(py >= F16(0.0F), fold_y, -fold_y));
    const U16 low = as_unsigned(to_int(x * 32767.0F + 32768.5F));
    const U16 high = as_unsigned(to_int(y * 32767.0F + 32768.5F));
    return low | (high << 16);
}
KEYSTEAD_INLINE V16 from_octahedral(const U16& bits) {
    const F16 x = (to_float(as_signed(bits & U16(0xFFFFU))) - 32768.0F) * F16(1.0F / 32767.0F);
    const F16 y = (to_float(as_signed(bits >> 16)) - 32768.0F) * F16(1.0F / 32767.0F);
    const F16 z = F16(1.0F) - abs(x) - abs(y);
    const F16 t = max(-z, 0.0F);
    return normalize(V16(x + choose(x >= F16(0.0F), -t, t), y + choose(y >= F16(0.0F), -t, t), z));
}

KEYSTEAD_INLINE U16 packed_colour(const F16& albedo) {
    return sixteen_bits(sqrt(clamp(albedo, 0.0F, 2.0F) * 0.5F));
}
KEYSTEAD_INLINE F16 colour_of(const std::uint16_t* from) {
    const F16 root = share_of(load_shorts(from));
    return root * root * 2.0F;
}

/// Line of sight of each lane of a block.
KEYSTEAD_INLINE V16 block_lines(const SightLines& lines, int column, int row) {
    F16 x, y;
    for (std::size_t i = 0; i < block_lanes; ++i) {
        x.set(i, static_cast<float>(i % block_px));
        y.set(i, static_cast<float>(i / block_px));
    }
    x += static_cast<float>(column * block_px);
    y += static_cast<float>(row * block_px);
    return V16(lines.corner) + V16(lines.right) * x + V16(lines.down) * y;
}

KEYSTEAD_INLINE void pack(SeenBlock& block, const reflection_lanes::Surface& s, const F16& distance,
                          const HitPacket& hits) {
    const M16 met = hits.mesh != U16(ray_miss);
    lanes::store(block.distance, choose(met, distance, F16(0.0F)));
    store_bits(block.geometric, octahedral(s.geometric));
    store_bits(block.normal, octahedral(s.normal));
    store_shorts(block.red, packed_colour(s.albedo.x));
    store_shorts(block.green, packed_colour(s.albedo.y));
    store_shorts(block.blue, packed_colour(s.albedo.z));
    store_shorts(block.roughness, sixteen_bits(s.roughness));
    store_shorts(block.part, choose(met, hits.mesh, U16(no_part)));
}

KEYSTEAD_INLINE void pack_place(SeenPlace& place, const HitPacket& hits) {
    store_bits(place.triangle, hits.triangle);
    store_shorts(place.u, sixteen_bits(hits.u));
    store_shorts(place.v, sixteen_bits(hits.v));
}

KEYSTEAD_INLINE void read_materials(const std::vector<SurfacePart>& parts, const SeenBlock& block,
                                    bool one_part, reflection_lanes::Surface& s) {
    if (one_part) {
        const SurfacePart& part = parts[block.part[0]];
        s.f0 = part.material.f0;
        s.metal = M16(part.material.metal);
        s.finish = static_cast<int>(part.material.finish);
        s.emitting_light = part.emitting_light;
        return;
    }
    for (std::size_t i = 0; i < block_lanes; ++i) {
        const bool sees = block.part[i] != no_part;
        const SurfacePart& part = parts[sees ? block.part[i] : 0];
        s.f0.set(i, part.material.f0);
        s.metal.set(i, part.material.metal);
        s.finish.set(i, sees ? static_cast<int>(part.material.finish) : 0);
        s.emitting_light.set(i, sees ? part.emitting_light : -1);
    }
}

/// How a block's surfaces answer: all of a surface but its place and geometric normal. `tangents`
/// is null where there is no hair.
KEYSTEAD_INLINE void read_answer(const std::vector<SurfacePart>& parts, const SeenBlock& block,
                                 const TangentBlock* tangents, bool one_part,
                                 reflection_lanes::Surface& s) {
    s.normal = from_octahedral(load_bits(block.normal));
    s.albedo = {colour_of(block.red), colour_of(block.green), colour_of(block.blue)};
    s.roughness = share_of(load_shorts(block.roughness));
    s.tangent = V16(F16(0.0F));
    if (tangents != nullptr) {
        const U16 bits = load_bits(tangents->tangent);
        s.tangent = choose(bits != U16(0U), from_octahedral(bits), s.tangent);
    }
    read_materials(parts, block, one_part, s);
}

/// Of a lens block: without gloss corneas mirror nothing.
KEYSTEAD_INLINE F16 mirrored_share(const LensBlock& lens, bool specular) {
    const F16 share = lanes::load(lens.share.data());
    return specular ? share : max(share, 0.0F);
}

} // namespace keystead::seen_lanes
