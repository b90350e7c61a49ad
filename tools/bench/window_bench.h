// What a frame of the window costs while something is dragged, without a screen: the same frames,
// pictures and background work, the pointer simulated, drawn into a framebuffer.
#pragma once

#include "engine/render/choose_filler.h"
#include "tools/bench/timing.h"

#include <string>

namespace keystead::bench {

/// Frames are begun sixty times a second, as a screen would. For each grip: what a frame costs, how
/// many are late, and how long after the pointer moved a picture of that place was there.
/// Needs a current OpenGL context.
Json window_drags(const std::string& set_file, int width_px, int height_px, FillerKind filler,
                  double drag_s);

} // namespace keystead::bench
