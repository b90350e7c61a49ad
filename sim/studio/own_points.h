// The five points of a subject's file as the window shows and places them.
#pragma once

#include "sim/studio/studio.h"

#include <array>
#include <optional>
#include <string>

namespace keystead {

/// In the document's order; `own_point_fields` names them there (`subject.file.chin_m`).
enum class OwnPointKind : std::uint8_t { nose_tip, pupil_left, pupil_right, chin, top };
inline constexpr std::array<const char*, 5> own_point_fields{"nose_tip_m", "pupil_left_m",
                                                             "pupil_right_m", "chin_m", "top_m"};

/// `subject.file.chin_m`
std::string own_point_path(std::size_t index);

struct OwnPoint {
    std::optional<HeadPoint> point; ///< converted file's frame, metres; found or placed
    std::optional<Vec3> in_room_m; ///< where it is now: on the posed surface, at the nearest vertex
};

/// All five; empty ones where the set has no file, or an unusable one.
std::array<OwnPoint, 5> own_points(const Studio& studio);

/// The point of the file that a ray in the room meets first, in the converted file's frame: what
/// `subject.file.nose_tip_m` and its like hold. Nothing if the ray meets something else first.
std::optional<Vec3> own_point_met(const Studio& studio, const Vec3& from_m, const Vec3& direction);

} // namespace keystead
