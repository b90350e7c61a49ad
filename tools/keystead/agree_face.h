// The simulation's face map of each light against the picture of that light, for `agree --face`.
#pragma once

#include "sim/studio/studio.h"

#include <filesystem>
#include <memory>
#include <string>

namespace keystead {

/// Prints a table, a light a row, and writes a map a light beside `stem`. Exit code: done, or
/// danger where a light's agreement falls below `wanted_face_share`.
int agree_face(const std::string& set, const std::shared_ptr<const Studio>& studio,
               const std::filesystem::path& stem);

/// Share of places outside penumbras and mixed pixels where map and picture say the same.
inline constexpr double wanted_face_share = 0.98;

} // namespace keystead
