// Paths of the user's files in a set: relative where the file lies below the set's folder, so that
// both can move together, else absolute.
#pragma once

#include "sim/set/set.h"

#include <filesystem>
#include <string>
#include <vector>

namespace keystead {

/// How a set in `folder` names `file`. An empty folder is that of a set not saved yet: absolute.
std::string path_in_set(const std::filesystem::path& file, const std::filesystem::path& folder);

/// A path that must read otherwise once the set lies elsewhere.
struct MovedPath {
    std::string path; ///< in the document, by id: `props[box].path`
    std::string file; ///< what must stand there
};

/// Of all mesh and photometric files of the set, those whose path changes from one folder to
/// another.
std::vector<MovedPath> moved_paths(const Set& set, const std::filesystem::path& from,
                                   const std::filesystem::path& to);

} // namespace keystead
