// Polygons into triangles.
#pragma once

#include <cstdint>
#include <glm/glm.hpp>
#include <span>
#include <vector>

namespace keystead::importing {

/// Triangles of a simple polygon, as positions in `corners`, winding kept. Convex or not, by ear
/// clipping in the plane of its vector area (Meisters 1975, "Polygons have ears"); a polygon that
/// crosses itself, has no area, or has more than 256 corners becomes a fan. Always corners - 2.
std::vector<glm::uvec3> triangulate(std::span<const glm::vec3> corners);

} // namespace keystead::importing
