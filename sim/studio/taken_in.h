// What a mesh file becomes in a set, as the command line and the window put it there.
#pragma once

#include "sim/import/find_landmarks.h"
#include "sim/import/units.h"
#include "sim/set/set.h"

#include <string>

namespace keystead {

/// What a person's mesh shows, by how much hangs below the chin. Where no face was found, what the
/// offer of that unit and axis takes it for. `low_m`: its lowest point.
PersonPart part_shown(const HeadLandmarks& face, double low_m, const UnitGuess& guess,
                      LengthUnit unit, UpAxis up);

/// `prop-1`, `prop-2` …: the first that nothing in the set is called.
std::string free_prop_id(const Set& set);

/// Where the next prop is put: on the floor beside the subject, one step further for each that is
/// there, within the walls.
Vec3 free_prop_place_m(const Set& set);

} // namespace keystead
