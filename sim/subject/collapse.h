// Fewer triangles where the surface is flat: vertices are merged into a neighbour on the surface.
#pragma once

#include "sim/subject/surface.h"

#include <functional>

namespace keystead::sculpt {

struct CollapseLimits {
    double chord_mm = 0.06; ///< how far a new edge may lie off the surface
    double longest_mm = 14.0;
    /// Longest edge allowed at a point, where paint needs vertices; empty: `longest_mm` everywhere.
    std::function<double(const Vec3&)> longest_at;
    /// Factor on `chord_mm` at a point, where the eye is less demanding; empty: 1.
    std::function<double(const Vec3&)> ease_at;
    /// The subject's, against a mean man's: all lengths above grow with it, so that a larger one
    /// has no more triangles.
    double size = 1.0;
    int passes = 18;
};

/// Needs `surface.normals`. Open rims and the mirror plane's line stay where they are.
void collapse(Surface& surface, const CollapseLimits& limits);

} // namespace keystead::sculpt
