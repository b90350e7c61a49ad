// Regions, colours and roughness of a finished mesh, from where its vertices lie.
#pragma once

#include "sim/base/mesh.h"
#include "sim/subject/body.h"
#include "sim/subject/hair_field.h"
#include "sim/subject/subject.h"

namespace keystead::sculpt {

/// Colours are painted for these reflectances; posing scales them to the subject's own.
inline const Vec3 base_skin{0.50, 0.335, 0.26};
inline const Vec3 base_hair{0.055, 0.034, 0.022};
inline const Vec3 base_cloth{0.085, 0.095, 0.115};

void paint_skin(Mesh& skin, const Shape& shape, HairStyle style);
void paint_hands(Mesh& hands);
/// Strands and clumps: moves vertices a little and tilts their normals. Both halves differ.
void comb_hair(Mesh& hair, const Shape& shape, HairStyle style);
void paint_hair(Mesh& hair, const Shape& shape, HairStyle style);
/// Folds: moves vertices and tilts normals; both halves differ.
void drape_cloth(Mesh& cloth, const Shape& shape, const ArmBends& arms);
void paint_cloth(Mesh& cloth, const Shape& shape, const ArmBends& arms);

} // namespace keystead::sculpt
