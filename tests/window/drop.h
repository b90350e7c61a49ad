// The giving side of drag and drop between X programs (the XDND protocol, version 5, as published
// on freedesktop.org): no command-line tool gives files.
#pragma once

#include <filesystem>

struct _XDisplay;

namespace keystead::journeys {

/// Enters `target` with one file, moves to x, y of the screen, lets go, and hands the file's
/// address over. True once the target says that it has finished.
bool drop_file(_XDisplay* display, unsigned long target, const std::filesystem::path& file, int x,
               int y);

} // namespace keystead::journeys
