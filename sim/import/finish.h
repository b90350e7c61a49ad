// What every imported mesh gets, whatever its format: normals, order, an outside.
#pragma once

#include "sim/import/blame.h"

namespace keystead::importing {

/// Normals where there are none: each corner the area-weighted mean of the faces around its place
/// that lie within 60° of its own, so that round forms are smooth and edges stay edges. Vertices
/// are split along edges. Faces at the same place count as neighbours even if the file repeats the
/// vertex.
void compute_normals(Mesh& mesh);

/// Appends a part; a part without normals gets them first.
void append_part(Mesh& mesh, Mesh part);

/// Vertices that no triangle uses are removed; the order of the others stays.
void drop_unused_vertices(Mesh& mesh);

/// Clean triangles, no unused vertices, normals, winding outward, bounds. A problem if nothing is
/// left or it has no size.
Outcome finish(ImportedMesh& imported, const Blame& blame);

} // namespace keystead::importing
