// Runs a command and keeps what it said.
#pragma once

#include <string>

namespace testing {

struct Ran {
    int status = -1;
    std::string out;
    std::string err;
};

/// Runs `command` in a shell; stdout and stderr apart.
Ran run(const std::string& command);

/// The program under test with these words.
Ran keystead(const std::string& words);

/// A new empty folder below the build folder.
std::string scratch_folder(const std::string& name);

std::string read_text(const std::string& file);
void write_text(const std::string& file, const std::string& text);

} // namespace testing
