// Eyeballs: a sphere with a cornea, coloured in rings.
#pragma once

#include "sim/base/mesh.h"
#include "sim/subject/shape.h"

namespace keystead::sculpt {

/// Both eyes, metres. Cornea: radius 7.9 mm, 0.8 mm proud of the sphere (anatomy: 7.8 mm).
Mesh eye_mesh(const Shape& shape);

/// Pupil, iris and white at a point of the eyeball, millimetres from its centre, z out of the eye.
/// Fibres and a dark rim vary about `iris`.
Vec3 eye_colour(const Vec3& p, const Vec3& iris);

} // namespace keystead::sculpt
