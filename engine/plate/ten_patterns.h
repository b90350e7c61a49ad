// Every pattern the simulation names, on three poses of one head, each under a key that shows it
// plainly.
#pragma once

#include "engine/plate/plate_sets.h"

namespace keystead {

/// Columns: the patterns, in the order of `Pattern`. Rows: the head frontal, turned, chin down;
/// keys are carried with the head, the camera stands still.
Plate ten_patterns_plate();

} // namespace keystead
