// How much of a flash's light comes while the shutter is open.
//
// The flash is taken to rise at once and to fall exponentially, as a capacitor empties through a
// tube: intensity halves every t0.5. ISO 2827 (from memory) defines t0.5 as the time spent above
// half the peak; on an exponential t0.1 is then ln 10 / ln 2 = 3.3 of it (makers print about three;
// common practice). Heads that cut the tail off at low power lose less than this says.
#pragma once

#include "sim/set/set.h"

namespace keystead {

/// Share of the flash's light out by `time_s` after the trigger: 1 - 2^(-t/t0.5).
double flash_share_by(double time_s, double t05_s);
/// Time above a tenth of the peak.
double t01_of_t05_s(double t05_s);

/// Travel of one curtain. A shutter that syncs at a time has its whole frame open within it, so a
/// shorter sync time counts as the travel.
double curtain_travel_s(const Camera& camera);

/// How long after the flash a row of the frame stays open, when the flash fires as the first
/// curtain arrives. `row` 0: uncovered first, 1: last. Negative: closed before it.
double open_after_flash_s(const Camera& camera, double row);

/// Stops that a flash loses on a row: 0 with a slow shutter, infinite where the row is closed.
double tail_loss_stops(const Camera& camera, double row, double t05_s);

/// Shortest exposure whose first row loses at most so many stops (> 0) of a flash.
double shutter_for_tail_loss_s(const Camera& camera, double t05_s, double stops);

} // namespace keystead
