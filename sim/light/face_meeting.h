// Where a line meets a light's emitting face: the shape itself, not the mesh that is drawn of it.
#pragma once

#include "sim/light/emitter.h"

#include <optional>

namespace keystead {

struct FaceMeeting {
    double distance_m = 0.0;
    EmitterPoint point;
};

/// First place where the line from `from_m` along unit `direction` meets the face from the side
/// that shines; nothing where it passes by or comes from behind.
std::optional<FaceMeeting> meet_face(const Emitter& emitter, const Vec3& from_m,
                                     const Vec3& direction);

/// The face's point at a place on or very near it, such as one on the drawn mesh.
EmitterPoint face_point_at(const Emitter& emitter, const Vec3& place_m);

} // namespace keystead
