// A file that is whole or not there: written beside its place, then renamed.
#pragma once

#include "sim/base/result.h"

#include <filesystem>
#include <optional>
#include <system_error>

namespace keystead {

/// Gives `write` a name beside `file`; what it wrote takes the file's place, or is removed where it
/// reports a problem.
template <class Write>
Outcome write_whole(const std::filesystem::path& file, Write&& write) {
    std::filesystem::path part = file;
    part += ".part";
    std::error_code error;
    if (const Outcome failed = write(part)) {
        std::filesystem::remove(part, error);
        return failed;
    }
    std::filesystem::rename(part, file, error);
    if (error) return Problem{file.string(), "cannot be written", error.message()};
    return std::nullopt;
}

} // namespace keystead
