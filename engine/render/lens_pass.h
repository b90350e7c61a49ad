// Lenses of glasses and corneas on the graphics card: what is behind lenses dimmed, what they
// mirror added.
#pragma once

#include "engine/gl/program.h"
#include "engine/render/geometry.h"
#include "sim/transport/bake.h"
#include "sim/transport/lens_sight.h"
#include "sim/transport/light_sequence.h"

#include <array>
#include <span>

namespace keystead {

/// Lenses at one sub-pixel place: a small G-buffer of what they mirror.
struct LensBuffer {
    bool made = false;
    LensSight sight;                          ///< parts counted as the geometry counts them
    Texture lens, position, normals, surface; ///< of the size of `sight.box`; see LensSight

    bool any() const { return sight.box.count() > 0; }
};

/// One a sub-pixel place, made when first asked for.
struct LensBuffers {
    std::array<LensBuffer, jitter_sets> sets;
    Program indirect; ///< fullscreen.vert, lens_indirect.frag
};

void forget(LensBuffers& lenses);

/// The lenses at sub-pixel place `set`; null where none is worn or in the picture.
const LensBuffer* lenses_at(LensBuffers& lenses, int set, const Studio& studio,
                            const Geometry& geometry, const View& view, int width_px,
                            int height_px);

/// Tells a program where the lenses are (shaders/lens.glsl); null: nowhere.
void bind_lens(Program& program, const LensBuffer* lens, int unit);

/// Adds mirrored baked light to layers of `layers`, as many as `targets` names, one an emitter.
void add_mirrored_indirect(LensBuffers& lenses, const LensBuffer& lens, const Geometry& geometry,
                           const IndirectLight& light, std::span<const int> baked_parts,
                           const Texture& layers, std::span<const int> targets, bool specular);

} // namespace keystead
