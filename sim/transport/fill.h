// Light on what a view sees: one light at a time, added to that light's layer. The processor's
// counterpart of the OpenGL renderer's passes; both converge to the same picture.
//
// A layer holds red, green and blue of sixteen pixels a block (picture_size.h): sums over samples
// of the radiance toward the eye for an exitance of 1 and white light, so that power, colour and
// exposure are a remix. The same bytes at any number of threads.
#pragma once

#include "sim/light/emitter.h"
#include "sim/studio/studio.h"
#include "sim/transport/bake.h"
#include "sim/transport/seen.h"
#include "sim/transport/view.h"

#include <span>

namespace keystead {

/// How surfaces answer to light.
struct SurfaceAnswer {
    bool specular = true;
    bool skin_wrap = false; ///< a look, not a measurement: red spreads past the terminator of skin
    /// Irradiance from everywhere, more of it from above: the work light's share that walls would
    /// send back.
    float ambient = 0.0F;
};

/// Adds what `points` of the emitter's face send: one sample each, as if the whole face were there.
/// `light_index` is the light's in the studio (its face shines where it is seen, and throws no
/// shadow of its own); another number for an emitter without a body. `picture` was seen from `view`
/// in `studio`. `layer` holds `layer_block_floats` a block, on a 64-byte boundary; of a `fresh` one
/// the content does not count and is written over.
void add_direct(const Studio& studio, const SeenPicture& picture, const View& view,
                const Emitter& emitter, int light_index, std::span<const EmitterPoint> points,
                const SurfaceAnswer& answer, std::span<float> layer, bool fresh = false);

/// Adds light that one emitter sends by way of other surfaces, as it was baked at the vertices.
/// `baked_parts[i]`: the part of the bake that part i of the studio's scene is, or -1.
void add_indirect(const Studio& studio, const SeenPicture& picture, const IndirectLight& light,
                  std::span<const int> baked_parts, std::size_t emitter,
                  const SurfaceAnswer& answer, std::span<float> layer);

/// The same where the bake was made of this studio's own scene.
void add_indirect(const Studio& studio, const SeenPicture& picture, const IndirectLight& light,
                  std::size_t emitter, const SurfaceAnswer& answer, std::span<float> layer);

} // namespace keystead
