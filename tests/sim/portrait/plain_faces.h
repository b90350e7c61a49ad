// Faces whose shadows can be worked out by hand, and lamps to put in front of them.
#pragma once

#include "sim/light/emitter.h"
#include "sim/portrait/pattern.h"
#include "sim/subject/subject.h"

namespace plain_faces {

using namespace keystead;

/// A flat plate 90 mm in front of the head's origin with a nose on it: a pyramid with a triangular
/// base, ridge from the root down to a tip that stands `protrusion_mm` proud, underside square to
/// the plate. Its shadow is the base joined to the tip's own shadow.
SubjectForm plate_with_wedge(double protrusion_mm);
/// Height of that tip above the pupils.
inline constexpr double wedge_tip_mm = -40.0, wedge_half_width_mm = 17.0;

/// An egg with a wedge of a nose, a brow, two shallow sockets and lips: nothing like a likeness,
/// but the same shadows by construction, mirror-symmetric to the last bit.
SubjectForm plain_head();

/// A uniform disc that looks at the nose root from that direction in the head's frame.
Emitter disc_at(const SubjectForm& form, double azimuth_deg, double elevation_deg,
                double diameter_m, double distance_m = 1.3);

/// The same in the room, for a posed head.
Emitter posed(const Emitter& emitter, const Mat3& head_axes, const Vec3& head_origin_m);

} // namespace plain_faces
