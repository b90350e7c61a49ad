// Single strands over the hair's surface: they break its outline, its hem and its edge on the skin.
#pragma once

#include "sim/subject/subject.h"

namespace keystead {

/// Narrow bands along the strands of the posed hair (its tangents), in the room, each turned its
/// own way about its run. For the eye only: too thin to count as what throws a shadow or stops a
/// ray. Normals are across the strand and outward. Deterministic; empty without hair. Some
/// milliseconds.
Mesh wisps_of(const PosedSubject& subject, HairStyle style);

} // namespace keystead
