// The review's separation along the outline against the path tracer, for `agree --edges`.
#pragma once

#include "sim/studio/studio.h"

#include <filesystem>
#include <memory>
#include <string>

namespace keystead {

/// A step between the outline's sides is called the picture's within so many stops.
inline constexpr double wanted_edge_stops = 0.15;

/// Prints a table, a place a row, and writes a picture with the places marked beside `stem`. Exit
/// code: done, or danger where a step is off by more than `wanted_edge_stops` and its noise.
int agree_edges(const std::string& set, const std::shared_ptr<const Studio>& studio, int samples,
                const std::filesystem::path& stem);

} // namespace keystead
