// Files that are whole at any moment: the old version or the new one, whenever the program or the
// computer stops.
#pragma once

#include "sim/base/result.h"

#include <filesystem>
#include <string>
#include <string_view>

namespace keystead {

enum class Previous { dropped, kept }; ///< kept: as `FILE~`

/// Writes a temporary file beside `file`, flushes it to the disk, renames it over `file` (which
/// rename(2) does at once or not at all) and flushes the folder. Through a link, the file it points
/// to is replaced. On any failure the old file is still whole.
Outcome write_safely(const std::filesystem::path& file, std::string_view text, Previous previous);

/// Takes away temporary files of `write_safely` that processes which ended left in `folder`, of
/// files whose name starts with `prefix`. `write_safely` does so for its own file.
void remove_strays(const std::filesystem::path& folder, std::string_view prefix);

} // namespace keystead
