// The user's own head, bust or figure as a sitter: everything that pattern, eyes and readings ask
// of a generated one.
//
// A file gives five points at most (nose tip, pupils, chin, top). The others come from the
// generated head of the same document, fitted to those five, and from the file's own relief: what
// lies on the front of the face is where a ray from the front meets it, nose root and nose base are
// where the profile is most hollow. The fit is our own.
#pragma once

#include "sim/base/result.h"
#include "sim/set/set.h"
#include "sim/studio/stored_mesh.h"
#include "sim/subject/subject.h"

namespace keystead {

/// Changes with the file, the points and whatever of the document decides the sitter's height.
std::uint64_t own_form_key(const StoredMesh& stored, const Subject& subject);

/// Why no form can be made: the file is unusable, or nose tip, pupils or chin are neither found nor
/// placed, or lie as no face's do; names what to place. `subject.file` must be set.
Outcome own_problem(const StoredMesh& stored, const Subject& subject);

/// A form made of a file without problem: all of it is skin; hair, clothing and eyes are empty. A
/// head or a bust hangs where stature and posture put the pupils; a figure stands with its lowest
/// point on the floor, whatever the posture.
SubjectForm own_form(const StoredMesh& stored, const Subject& subject);

/// Is it of a size that a person's mesh may have? Else the unit is wrong, and nothing would be
/// seen.
bool can_be_shown(const StoredMesh& stored);

/// The same mesh before its points are known: its top where the sitter's is, facing as the file or
/// `turn_deg` has it; the points are the generated sitter's. To be looked at and clicked on.
SubjectForm unplaced_form(const StoredMesh& stored, const Subject& subject);

/// The triangles of `skin` in either form are those of the stored mesh, in its order.

} // namespace keystead
