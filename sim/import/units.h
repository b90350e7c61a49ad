// Which unit and which axis up? A file rarely says, so its size is compared with people's sizes and
// the answers are offered, best first; the user decides.
#pragma once

#include "sim/base/mesh_file.h"
#include "sim/import/import.h"

namespace keystead {

/// Metres of one unit; inch and foot exact (international yard and pound agreement, 1959).
double metres_in(LengthUnit unit);
/// `mm`, `cm`, `m`, `in`, `ft`.
const char* short_name(LengthUnit unit);

struct UnitOffer {
    LengthUnit unit = LengthUnit::metre;
    UpAxis up = UpAxis::y;
    PersonPart part = PersonPart::head;
    double height_m = 0.0; ///< what the mesh would be tall
    double weight = 0.0;   ///< share of all offers' plausibility, 0..1
    std::string reason;    ///< one sentence for the user
};

struct UnitGuess {
    std::vector<UnitOffer> offers; ///< best first, at most one a pair of unit and axis; never empty
    /// Best offer far ahead of the next and of a person's size. Even then it is only offered.
    bool clear = false;
};

/// Compares the box with a head (neck cut at the chin or below), a bust and a standing or seated
/// figure, in each unit and with each axis up. Mean head height and stature: ANSUR II (2012).
/// The format's own rule weighs in: glTF is metres with Y up by its specification (§3.4).
UnitGuess guess_units(const Bounds& bounds, MeshFormat format = MeshFormat::obj);

/// The mesh in metres with Y up. Z up: the file's -Y becomes +Z (forward), as modelling programs
/// with Z up face a figure. X up: the file's Z stays. A turn, so winding and handedness stay.
Mesh convert(Mesh mesh, LengthUnit unit, UpAxis up);

} // namespace keystead
