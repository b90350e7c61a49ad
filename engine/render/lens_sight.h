// The glasses' lenses as a view sees them: which pixels, and what is mirrored there. Plain data,
// found by ray casts; lens_pass draws it.
#pragma once

#include "engine/render/geometry.h"
#include "sim/transport/bake.h"
#include "sim/transport/view.h"

#include <span>
#include <vector>

namespace keystead {

/// Pixels of the picture, from the bottom left as OpenGL counts them.
struct PixelBox {
    int left = 0, bottom = 0, width = 0, height = 0;

    std::size_t count() const {
        return static_cast<std::size_t>(width) * static_cast<std::size_t>(height);
    }
};

/// One row-major entry a pixel of `box`, in the G-buffer's own encoding.
struct LensSight {
    PixelBox box;
    std::vector<glm::vec4> lens;     ///< place on the lens; w: reflectance, 0 = no lens there
    std::vector<glm::vec4> position; ///< what is mirrored; w = part + 1, 0 = nothing
    std::vector<glm::vec4> normals;  ///< octahedral geometric and shading normal, toward the lens
    std::vector<glm::vec4> surface;  ///< albedo and roughness
    std::vector<RayHit> hits;        ///< what is mirrored, as the studio's ray scene has it
};

/// Does the sitter wear lenses that can be traced?
bool wears_lenses(const Studio& studio);

/// The lenses that are not hidden, seen from `view` moved by a sub-pixel offset. Lines that pass
/// both lenses take the nearer one. An empty box where no lens is in the picture.
LensSight see_lenses(const Studio& studio, const Geometry& geometry, const View& view, int width_px,
                     int height_px, glm::vec2 offset_px);

/// Light of one emitter that comes to the lens by way of what is mirrored: reflectance of the lens
/// times radiance. `baked_parts[i]`: the part of the bake that geometry part i is, or -1.
std::vector<glm::vec4> mirrored_indirect(const LensSight& sight, const Geometry& geometry,
                                         const IndirectLight& light,
                                         std::span<const int> baked_parts, std::size_t emitter);

} // namespace keystead
