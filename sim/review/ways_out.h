// What to do when a head has not enough power, or too much of it.
#pragma once

#include "sim/light/power.h"
#include "sim/review/bench.h"

#include <string>

namespace keystead {

/// The three ways out with their numbers: the light's distance, what sits before its lamp, or the
/// camera (and then every other light). For a setting that was not reached.
std::string ways_out(const Bench& bench, std::size_t light, const PowerSetting& setting);

/// "Full power is 1.2 stops short.", "Its lowest power is 0.6 stop too much."
std::string beyond_range(const PowerSetting& setting);

/// The mark of the third-stop scale of speeds at or next above: 100, 125, 160 …
std::string iso_at_least(double iso);

} // namespace keystead
