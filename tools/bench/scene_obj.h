// The scene for other programs to trace: a yardstick for rays a second.
#pragma once

#include "sim/base/result.h"
#include "sim/studio/studio.h"

#include <string>

namespace keystead::bench {

/// Wavefront OBJ of every part. Normals and colours are left out.
Outcome write_obj(const Studio& studio, const std::string& file);

} // namespace keystead::bench
