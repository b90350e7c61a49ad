// A key carried to other directions and distances from the face, turned to it as it was.
#pragma once

#include "sim/portrait/face_light.h"

namespace keystead {

/// `key` is in the head's frame (see in_head_frame). It comes to stand `distance_m` from the nose
/// root in that direction and keeps its turn against the line to the face, so that a feathered key
/// stays as feathered. On the other side of the face from where it was it stands as its mirror
/// image does.
Emitter moved_key(const FaceChart& chart, const Emitter& key, Angles direction, double distance_m);

} // namespace keystead
