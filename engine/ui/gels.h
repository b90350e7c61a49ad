// Gels to choose from, for the side panel and the lights strip.
#pragma once

#include "engine/edit/command.h"

#include <optional>
#include <string>
#include <vector>

namespace keystead::ui {

/// "none", then the gels as they are sold.
const std::vector<std::string>& gel_names();
/// "none", a name, "120 mired" or "own colour".
std::string gel_words(const std::optional<Gel>& gel);
/// What choosing entry `picked` of the names does to the light `id`; none below 0, or where nothing
/// is taken from nothing.
std::optional<Command> gel_command(const std::string& id, const Modifier& modifier, int picked);

} // namespace keystead::ui
