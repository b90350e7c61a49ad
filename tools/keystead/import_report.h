// What was understood of a mesh file, as text and as JSON.
#pragma once

#include "sim/import/find_landmarks.h"
#include "sim/import/import.h"
#include "sim/import/units.h"

#include <string>

namespace keystead {

struct ImportReport {
    std::string file;
    ImportedMesh imported;
    UnitGuess guess;
    LengthUnit unit = LengthUnit::metre; ///< read in these for the landmarks: the user's, or the
    UpAxis up = UpAxis::y;               ///< best offer's
    bool stated = false;                 ///< by the user
    HeadLandmarks landmarks;
    double low_m = 0.0; ///< lowest point, read so
    std::string part;   ///< head, bust or figure where the user said so
};

std::string import_text(const ImportReport& report);
/// One object; keys are stable.
std::string import_json(const ImportReport& report);

} // namespace keystead
