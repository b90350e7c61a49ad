// A coarser surface for ray queries and shadows.
#pragma once

#include "sim/base/mesh.h"

#include <cstddef>

namespace keystead {

struct SimplifiedMesh {
    Mesh mesh;
    /// Estimated distance between the two surfaces, in the unit of the positions: the square root
    /// of the largest quadric error of a collapse. Zero if nothing was removed.
    double error = 0.0;
    /// False: separate shells or holes had to be merged to reach the budget.
    bool kept_topology = true;
};

/// At most `max_triangles` (at least 4), by quadric edge collapse (Garland and Heckbert 1997).
/// Vertices at one place are joined first, so seams do not open. Each kept vertex keeps its
/// normal and colour. Deterministic.
SimplifiedMesh simplify(const Mesh& mesh, std::size_t max_triangles);

} // namespace keystead
