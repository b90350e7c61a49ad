// Power in hand: what setting gives a wanted reading, and what else can when the head cannot.
#pragma once

#include "sim/light/emitter.h"

#include <optional>

namespace keystead {

/// A head's setting after a change of its light.
struct PowerSetting {
    double stops_below = 0.0;   ///< the nearest setting within the head's range
    double missing_stops = 0.0; ///< what full power still falls short by; 0 = nothing
    double excess_stops = 0.0;  ///< what the lowest setting is still too much by; 0 = nothing
    bool reached() const { return missing_stops == 0.0 && excess_stops == 0.0; }
};

/// The setting that changes a head's light by so many stops (+ = more). A twentieth of a stop
/// beyond either end counts as reached: no meter tells it.
PowerSetting power_after(const Head& head, double change_stops);

/// Distance before the face, on its axis, at which it gives `stops` more (+) or less than at
/// `from_m`; empty where that would be nearer than 5 cm or farther than 100 m. A large face gains
/// less by going near than the inverse square says.
std::optional<double> distance_for_stops(const Emitter& emitter, double from_m, double stops);

/// Stops that the grid costs on the axis at a distance; 0 without one.
double grid_loss_stops(const Emitter& emitter, double distance_m);

} // namespace keystead
