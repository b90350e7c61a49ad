// Boxes along the room's axes: around parts of the scene, around what is seen.
#pragma once

#include "sim/base/mesh.h"

#include <glm/glm.hpp>
#include <span>
#include <vector>

namespace keystead {

struct Box {
    glm::vec3 low_m{0.0F}, high_m{0.0F};
};

/// The smallest box around points; at the origin without any.
Box box_of(std::span<const glm::vec3> points);
/// The smallest box around both.
Box united(const Box& a, const Box& b);
Box widened(const Box& box, float by_m);
/// Do they share a point?
bool touches(const Box& a, const Box& b);

/// Does a box reach into the convex hull of two others? Exact.
bool between(const Box& box, const Box& from, const Box& to);

/// Boxes around the points of each `cell_m` wide cube of the room that holds any: together they
/// hug what one box would only surround.
std::vector<Box> boxes_of(std::span<const glm::vec3> points, float cell_m);
/// The same around triangles: each counts to the cube of its middle, its box reaches around it all.
std::vector<Box> boxes_of(const Mesh& mesh, float cell_m);

} // namespace keystead
