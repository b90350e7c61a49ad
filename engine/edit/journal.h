// Commands as text, one JSON object a line: the record of a session that can be played again.
#pragma once

#include "engine/edit/command.h"

#include <string>
#include <string_view>

namespace keystead {

/// One line without its end: `{"set": "room.width_m", "value": 5}`.
std::string journal_line(const Command& command);

/// The command of such a line.
Result<Command> read_journal_line(std::string_view line);

} // namespace keystead
