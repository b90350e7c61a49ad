// Where a light looks, as a point that can be drawn and taken hold of.
#pragma once

#include "sim/subject/subject.h"
#include "sim/support/pose.h"

namespace keystead::ui {

/// The landmark or point it looks at; for a light with a fixed direction, the point of its beam
/// nearest to the face. Feathering is left out: that is what it looks past.
Vec3 aim_point(const Light& light, const SupportPose& pose, const Landmarks& landmarks);

/// Where a look from `from_m` at `target_m` is taken hold of: a little before the target, so that a
/// head turns when it is the head that is pulled.
Vec3 aim_handle(const Vec3& from_m, const Vec3& target_m);

} // namespace keystead::ui
