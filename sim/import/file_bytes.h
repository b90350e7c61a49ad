// Bytes of a file under a cap.
#pragma once

#include "sim/base/result.h"
#include "sim/import/blame.h"

#include <cstdint>
#include <filesystem>
#include <span>
#include <vector>

namespace keystead::importing {

using Bytes = std::vector<std::uint8_t>;
using ByteView = std::span<const std::uint8_t>;

/// Size of an ordinary, non-empty file of at most `max_bytes`; else why not (a folder, a device, a
/// pipe, nothing there, empty, too large). `place` names what refers to it, or is empty.
Result<std::uint64_t> checked_size(const std::filesystem::path& file, std::uint64_t max_bytes,
                                   const Blame& blame, std::string_view place = "");

/// The whole file.
Result<Bytes> read_bytes(const std::filesystem::path& file, std::uint64_t max_bytes,
                         const Blame& blame, std::string_view place = "");

/// The first bytes of a file already found readable; fewer if it is shorter.
Bytes read_start(const std::filesystem::path& file, std::size_t count);

} // namespace keystead::importing
