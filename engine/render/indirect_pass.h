// Adds light that came by way of other surfaces, baked at the vertices, to layers of its own.
#pragma once

#include "engine/render/gbuffer.h"
#include "engine/render/lens_pass.h"
#include "sim/transport/bake.h"

#include <span>
#include <vector>

namespace keystead {

/// Baked values of the parts that are drawn, on the graphics card.
struct IndirectPass {
    Program program;
    std::size_t emitters = 0;
    std::vector<int> baked_parts;    ///< the part of the bake that a part is, or -1
    std::vector<Buffer> values;      ///< one a part of the geometry; none: no light
    std::vector<VertexArray> arrays; ///< one a part and group of four emitters
    bool specular = true;            ///< highlights answer, too; taken for even light
    int sets_done = 0;               ///< sub-pixel places added so far, as a bit mask
};

/// Hands baked values over. `baked_parts[i]`: the part of the bake that geometry part i is, or -1.
void upload_indirect(IndirectPass& pass, const Geometry& geometry, const IndirectLight& light,
                     std::span<const int> baked_parts);

/// Adds one sub-pixel place to the layers `first_layer` .. of `layers` (an RGBA32F array), one an
/// emitter. `targets` names the layer of each emitter. `lens`, where not null, dims what is behind.
void add_indirect(IndirectPass& pass, const GBuffer& buffer, const LensBuffer* lens,
                  const Geometry& geometry, const View& view, int width_px, int height_px,
                  const Texture& layers, std::span<const int> targets);

} // namespace keystead
