// Finishing touches of a mesh built from welded positions: normals, colours, merging.
//
// Builders return positions and triangles only, sharing every vertex of one solid, so that a solid
// is closed by construction; `finished` then splits vertices where an edge is hard.
#pragma once

#include "sim/base/mesh.h"

namespace keystead::build {

/// Normals averaged over faces that meet below `crease_deg`; vertices are split along sharper
/// edges. Triangles without area are dropped.
Mesh finished(const Mesh& welded, double crease_deg = 50.0);

/// One colour and roughness on every vertex, where they differ from the part's material.
Mesh tinted(Mesh mesh, const glm::vec3& albedo, float roughness);

/// Turned inside out.
Mesh reversed(Mesh mesh);

/// Several solids as one mesh.
template <class... Meshes>
Mesh merged(Mesh first, const Meshes&... others) {
    (append(first, others), ...);
    return first;
}

} // namespace keystead::build
