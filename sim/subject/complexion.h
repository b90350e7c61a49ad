// What the document says of the subject's surfaces beyond their colour, put on posed meshes: none
// of it needs a new form.
#pragma once

#include "sim/subject/subject.h"

namespace keystead {

/// Oily skin is smoother: roughness falls to seven tenths over `oil` 0..1.
void apply_oil(Mesh& skin, double oil);

/// Satin: roughness 0.52 where matte cloth has 0.80; smoother would look wet.
void apply_finish(Mesh& clothing, ClothFinish finish);

/// Colours the irises of posed `eyes`, whose vertices are those of the form's.
void apply_iris(Mesh& eyes, const SubjectForm& form, const Vec3& iris);

/// A uniform matte 18 %: the mesh says nothing, so that the part's material does.
void make_grey_card(Mesh& mesh);

} // namespace keystead
