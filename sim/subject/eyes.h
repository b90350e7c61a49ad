// Eyeballs: a sphere with a cornea, coloured in rings.
#pragma once

#include "sim/base/mesh.h"
#include "sim/subject/shape.h"

namespace keystead::sculpt {

/// Both eyes, metres. Cornea: radius 7.9 mm, 0.8 mm proud of the sphere (anatomy: 7.8 mm).
Mesh eye_mesh(const Shape& shape);

} // namespace keystead::sculpt
