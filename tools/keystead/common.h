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

/// The set's studio, after printing a line for every file in it that can't be used. Empty where
/// that is the subject's own: no verdict would be about the subject meant.
std::shared_ptr<const Studio> studio_or_complain(const Set& set, const std::string& file);

struct PixelSize {
    int width = 0, height = 0;
};
/// "1280x720"; each side 16..8192.
Result<PixelSize> parse_size(const std::string& text);

/// Writes the share done to stderr where that is a terminal; never stops anything.
bool show_progress(double share);

} // namespace keystead
