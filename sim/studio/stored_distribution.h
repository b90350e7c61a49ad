// Measured distributions from the user's own files, read once and kept while neither the file nor
// its turn changes.
#pragma once

#include "sim/base/result.h"
#include "sim/light/measured.h"
#include "sim/set/set.h"

#include <filesystem>
#include <memory>
#include <optional>
#include <vector>

namespace keystead {

/// One file as read: a table, or why there is none.
struct StoredDistribution {
    std::uint64_t key = 0; ///< path, size and time of the file, and the turn
    std::optional<Problem> problem;
    std::shared_ptr<const DirectionTable> table; ///< null with a problem
};

using StoredDistributions = std::vector<std::shared_ptr<const StoredDistribution>>;

/// From `kept` if it is there and its file is unchanged, else read now. Relative paths start at
/// `folder`.
std::shared_ptr<const StoredDistribution> stored_distribution(const PhotometricFile& file,
                                                              const std::filesystem::path& folder,
                                                              const StoredDistributions& kept);

} // namespace keystead
