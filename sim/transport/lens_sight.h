// Lenses of glasses and corneas as a view sees them: which pixels, and what is mirrored there. Plain
// data, found by ray casts; renderers draw it.
//
// A cornea mirrors sitter, panels, background and room here. Faces of lights in it are drawn with
// their own edges by whoever draws the light, and gear is left out: a stand that moves changes
// nothing in an eye that could be seen.
#pragma once

#include "sim/studio/studio.h"
#include "sim/transport/view.h"

#include <optional>
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
    /// Place on the lens or cornea; w: its reflectance, negative where it takes nothing from what
    /// is seen behind it (a cornea), 0 = neither there.
    std::vector<glm::vec4> lens;
    std::vector<glm::vec4> position; ///< what is mirrored; w = part of the scene + 1, 0 = nothing
    std::vector<glm::vec4> normals;  ///< octahedral geometric and shading normal, toward the lens
    std::vector<glm::vec4> surface;  ///< albedo and roughness
    std::vector<RayHit> hits;        ///< what is mirrored, as the studio's ray scene has it
};

/// Does the sitter wear lenses that can be traced?
bool wears_lenses(const Studio& studio);

/// Where lenses and eyes can be in the picture, with a margin for sub-pixel offsets.
PixelBox lens_box(const Studio& studio, const View& view, int width_px, int height_px);

/// A line of sight that meets a lens or a cornea before anything else.
struct LensGlance {
    Vec3 place_m{0.0};
    double share = 0.0;         ///< sent back there; negative: see LensSight
    Vec3 onward{0.0, 0.0, 1.0}; ///< unit direction that is mirrored
    std::uint32_t mask = 0;     ///< of what can be mirrored
};

/// The nearer lens on the line from the view's eye along unit `line`, else the eye, if not hidden.
std::optional<LensGlance> glance_at_lens(const Studio& studio, const View& view, const Vec3& line);

/// The lenses and eyes that are not hidden, seen from `view` moved by a sub-pixel offset. Lines that
/// pass both lenses take the nearer one. An empty box where none is in the picture.
LensSight see_lenses(const Studio& studio, const View& view, int width_px, int height_px,
                     glm::vec2 offset_px);

} // namespace keystead
