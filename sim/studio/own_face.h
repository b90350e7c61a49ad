// Points and regions of a face from a file, fitted between the five points that are known.
#pragma once

#include "sim/base/mesh.h"
#include "sim/subject/subject.h"

namespace keystead::own {

/// What is known of the head, metres, head frame: origin midway between the tragions (as well as
/// they can be told), x to the subject's left, y up, z out of the nose.
struct KnownPoints {
    Vec3 nose_tip{0.0}, pupil_left{0.0}, pupil_right{0.0}, chin{0.0}, top{0.0};
};

/// All landmarks: the five known, the others fitted from `pattern` (a generated head's, metres) and
/// laid on the surface where it is met near there.
Landmarks fitted_landmarks(const std::shared_ptr<const Mesh>& mesh, const KnownPoints& known,
                           const Landmarks& pattern);

/// Regions by place about the landmarks. A nose reaches from its root to its base, as wide as its
/// wings at the base and narrow at the root.
void paint_regions(Mesh& mesh, const Landmarks& landmarks);

} // namespace keystead::own
