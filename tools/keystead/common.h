// Shared by the commands: loading with messages, sizes.
#pragma once

#include "sim/base/result.h"
#include "sim/set/set.h"
#include "sim/studio/studio.h"

#include <memory>
#include <optional>
#include <string>

namespace keystead {

/// Prints `keystead: MESSAGE` on stderr.
void complain(const std::string& message);

/// Loads a set, printing its notes; empty after printing what is wrong.
std::optional<Set> load_or_complain(const std::string& file);

struct PixelSize {
    int width = 0, height = 0;
};
/// "1280x720"; each side 16..8192.
Result<PixelSize> parse_size(const std::string& text);

} // namespace keystead
