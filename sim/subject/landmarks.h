// Landmarks of a shape, found on its field; vertices lie on the field, so the mesh agrees with them
// to its chord error.
#pragma once

#include "sim/subject/shape.h"
#include "sim/subject/subject.h"

namespace keystead::sculpt {

/// First crossing from outside along `direction` (unit), at most `reach_mm` away; the end of the
/// reach if nothing is met.
Vec3 march(const Field& field, const Vec3& from_mm, const Vec3& direction, double reach_mm = 200.0);

/// Midline and paired points of the bare head, millimetres, subject's space.
Landmarks head_landmarks_mm(const Shape& shape, const Field& skin);

/// Heights of the face chart's lines from landmarks in any one unit; `unit_mm` converts.
FaceLines face_lines(const Landmarks& landmarks, double unit_mm);

/// All points of a set of landmarks, for moving them together: head points first.
void transform_landmarks(Landmarks& landmarks, const Mat3& head, const Vec3& head_offset,
                         const Mat3& body, const Vec3& body_offset);

/// Heights, pivot and jaw that posing turns a form about.
void place_joints(SubjectForm& form, const Shape& shape);

} // namespace keystead::sculpt
