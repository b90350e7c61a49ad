// Surfaces given as functions of two parameters: walls, paper, boards, emitting faces.
#pragma once

#include "sim/base/mesh.h"
#include "sim/base/vec.h"

#include <functional>

namespace keystead::build {

/// A point for u, v in 0..1.
using Surface = std::function<Vec3(double u, double v)>;

/// An open sheet of columns x rows cells; its front is where u × v points.
Mesh sheet(int columns, int rows, const Surface& surface);

/// A closed slab between two sheets: `front` as above, `back` behind it.
Mesh slab(int columns, int rows, const Surface& front, const Surface& back);

/// How many cells of about `cell_m` fit into `length_m`, at least one.
int cells(double length_m, double cell_m);

} // namespace keystead::build
