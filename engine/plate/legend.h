// The strip below a map of stops or a marked picture that says what its bands and marks mean.
#pragma once

#include "engine/render/renderer.h"

namespace keystead {

/// `picture` with the strip added below it. A plain picture comes back as it was.
RgbaImage with_legend(const RgbaImage& picture, const Display& display);

} // namespace keystead
