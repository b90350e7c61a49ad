// A lighter stand-in for the sitter in shadow maps, for renderers that count every triangle.
#pragma once

#include "sim/base/mesh.h"

namespace keystead {

/// Vertices of one small cube become one: 3 mm about the features that throw shadows on a face, 6
/// mm on neck, ears and hair, 14 mm on clothing and body. Triangles that collapse are dropped.
/// Regions are those of sim/subject.
Mesh coarse_caster(const Mesh& sitter);

} // namespace keystead
