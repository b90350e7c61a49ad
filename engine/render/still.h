// A converged picture without a window.
#pragma once

#include "engine/render/choose_filler.h"
#include "sim/base/result.h"

#include <functional>
#include <memory>
#include <optional>
#include <string>

namespace keystead {

struct StillOptions {
    int width_px = 1280, height_px = 720;
    int samples = 64;               ///< points of each light
    std::optional<View> view;       ///< unset: the set's own camera
    std::optional<Display> display; ///< unset: exposed by the camera's settings
    bool linear = false;            ///< also give the picture before the display transform
    RenderOptions surfaces;
    bool glare = false; ///< a look: light scattered in the lens
    FillerKind filler = FillerKind::automatic;
    int tile_px = 0; ///< longest side of the tiles it is made in; 0: by memory
    bool indirect = true;                 ///< light that comes by way of walls and floor
    int bounce_paths = 96;                ///< a point; finer than what a window bakes at once
    int bounces = BakeOptions{}.bounces; ///< surfaces between light and what is seen
    std::function<bool(double)> progress; ///< told the share done, 0..1; false stops
};

struct Still {
    RgbaImage picture;
    LinearImage linear; ///< empty unless asked for
    LinearImage error;  ///< standard error of `linear`; of reference pictures only
    std::string device; ///< what rendered it
    int samples = 0;
};

/// Renders in a context of its own, or in the current one where `own_context` is false. Without
/// OpenGL, or with a slow one, the processor does it.
Result<Still> render_still(const std::shared_ptr<const Studio>& studio, const StillOptions& options,
                           bool own_context = true);

/// From behind the camera's side of the room, everything in sight: an orbit about the subject with
/// the work light on.
View studio_view(const Studio& studio, int width_px, int height_px);

} // namespace keystead
