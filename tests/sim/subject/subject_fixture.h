// Forms that several tests look at, built once a run.
#pragma once

#include "sim/subject/subject.h"

namespace subject_test {

/// Mean man or woman at the mean stature, without hair unless told otherwise.
keystead::Subject mean_subject(bool female, keystead::HairStyle style = keystead::HairStyle::none);

/// Bald forms of the two means: standing man, seated woman.
const keystead::SubjectForm& mean_man();
const keystead::SubjectForm& mean_woman();
/// The man with cropped hair.
const keystead::SubjectForm& cropped_man();

/// Vertex positions of one region, millimetres, canonical frame.
std::vector<keystead::Vec3> vertices_mm(const keystead::Mesh& mesh, keystead::Region region);

} // namespace subject_test
