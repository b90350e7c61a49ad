// Triangles of a simple polygon, for filling silhouettes that are not convex.
#pragma once

#include <array>
#include <cstdint>
#include <imgui.h>
#include <span>
#include <vector>

namespace keystead::ui {

using Triangle = std::array<std::size_t, 3>;

/// Ear clipping, O(n²); any winding. All triangles come out clockwise on the page (y down).
std::vector<Triangle> triangulate(std::span<const ImVec2> points);

} // namespace keystead::ui
