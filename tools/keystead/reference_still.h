// A still by the path tracer: no OpenGL, progress with the time left.
#pragma once

#include "engine/render/still.h"
#include "tools/keystead/commands.h"

namespace keystead {

/// `options` as for the renderer; bounces and seed from the command line.
Result<Still> reference_still(const Studio& studio, const StillOptions& options,
                              const StillArguments& arguments);

} // namespace keystead
