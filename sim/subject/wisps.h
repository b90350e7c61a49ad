// Single strands over the hair's surface: they break its outline, its hem and its edge on the skin.
#pragma once

#include "sim/subject/subject.h"

namespace keystead {

/// Narrow bands along the strands of the form's hair (its tangents), in the form's frame, each
/// turned its own way about its run. For the eye only: too thin to count as what throws a shadow or
/// stops a ray. Normals are across the strand and outward. Deterministic; empty without hair. Some
/// tens of milliseconds: made once a head, then posed like its hair.
Mesh wisps_of(const SubjectForm& form, HairStyle style);

} // namespace keystead
