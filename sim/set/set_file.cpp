// Loading and saving files of the document.
#include "sim/base/safe_file.h"
#include "sim/set/json_text.h"
#include "sim/set/set_io.h"

#include <array>
#include <fstream>
#include <system_error>

namespace keystead {

namespace fs = std::filesystem;

Result<LoadedSet> load_set(const fs::path& file) {
    std::error_code error;
    const fs::file_status status = fs::status(file, error);
    if (!fs::exists(status)) return Problem{file.string(), "", "no such file"};
    if (!fs::is_regular_file(status)) return Problem{file.string(), "", "is not a regular file"};
    if (fs::file_size(file, error) > json_max_bytes && !error)
        return Problem{file.string(), "", "is more than 16 MiB"};
    std::ifstream stream(file, std::ios::binary);
    if (!stream) return Problem{file.string(), "", "cannot be read"};
    std::string text;
    std::array<char, 1U << 16U> piece{};
    while (text.size() <= json_max_bytes && stream) {
        stream.read(piece.data(), piece.size());
        text.append(piece.data(), static_cast<std::size_t>(stream.gcount()));
    }
    if (stream.bad()) return Problem{file.string(), "", "cannot be read to its end"};
    Result<LoadedSet> loaded = parse_set(text);
    if (loaded) return loaded;
    Problem problem = loaded.problem();
    problem.path = file.string() + (problem.path.empty() ? "" : ": " + problem.path);
    return problem;
}

Outcome save_set(const Set& set, const fs::path& file) {
    if (Outcome problem = validate(set)) return problem;
    return write_safely(file, write_set(set), Previous::kept);
}

} // namespace keystead
