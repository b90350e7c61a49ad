// Values that every part of the document uses.
#pragma once

#include "sim/base/mesh_file.h"
#include "sim/base/vec.h"

#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace keystead {

/// Fields of a file that this version does not know, kept for re-saving: name and JSON text.
using Extras = std::vector<std::pair<std::string, std::string>>;

/// Diffuse reflectance, linear sRGB primaries, 0..1. JSON: one number (grey) or three.
struct Reflectance {
    Vec3 rgb{0.18};
    /// Luminous reflectance (Rec. 709 weights).
    double luminous() const { return 0.2126 * rgb.r + 0.7152 * rgb.g + 0.0722 * rgb.b; }
};

} // namespace keystead
