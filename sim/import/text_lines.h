// Logical lines of a large text file, read in blocks: the file is never in memory as a whole.
#pragma once

#include "sim/import/blame.h"

#include <fstream>
#include <optional>
#include <string_view>
#include <vector>

namespace keystead::importing {

/// Line ends may be LF, CR LF, or CR alone; a backslash before the line end joins the next line; a
/// byte order mark is skipped.
class TextLines {
public:
    TextLines(const std::filesystem::path& file, const Blame& blame);

    /// The next logical line, valid until the next call; nothing at the end or after a problem.
    std::optional<std::string_view> next();
    /// Number of the physical line the last one began on, from 1.
    std::uint64_t number() const { return number_; }
    std::uint64_t bytes_read() const { return bytes_read_; }
    /// Not text, or a line without end.
    const Outcome& problem() const { return problem_; }

private:
    std::optional<std::string_view> physical();
    /// Moves what is left to the front and reads behind it; false at the end of the file.
    bool refill();

    std::ifstream stream_;
    const Blame& blame_;
    std::vector<char> block_;
    std::size_t begin_ = 0, end_ = 0;
    char line_end_ = '\n';
    std::uint64_t number_ = 0, physical_ = 0, bytes_read_ = 0;
    std::string joined_;
    Outcome problem_;
};

} // namespace keystead::importing
