#include "engine/gl/shader_source.h"

#include <cstdlib>
#include <fstream>
#include <set>
#include <sstream>
#include <system_error>

namespace keystead {

namespace fs = std::filesystem;

fs::path shader_folder() {
    if (const char* folder = std::getenv("KEYSTEAD_SHADERS"); folder != nullptr && *folder != '\0')
        return folder;
    std::error_code error;
    const fs::path program = fs::read_symlink("/proc/self/exe", error);
    if (!error) {
        const fs::path installed = program.parent_path() / ".." / "share" / "keystead" / "shaders";
        if (fs::is_directory(installed, error)) return installed;
    }
    return KEYSTEAD_SOURCE_SHADERS;
}

namespace {

/// The file named by a line `#include "name"`, or empty.
std::string included_name(const std::string& line) {
    const std::size_t start = line.find_first_not_of(" \t");
    if (start == std::string::npos || line.compare(start, 8, "#include") != 0) return {};
    const std::size_t open = line.find('"', start);
    const std::size_t close = line.find('"', open + 1);
    if (open == std::string::npos || close == std::string::npos) return {};
    return line.substr(open + 1, close - open - 1);
}

Outcome append_file(const fs::path& folder, const std::string& name, std::set<std::string>& seen,
                    std::string& text) {
    if (!seen.insert(name).second) return std::nullopt;
    std::ifstream file(folder / name);
    if (!file)
        return Problem{(folder / name).string(), "cannot be read",
                       "; KEYSTEAD_SHADERS may name the folder of the shaders"};
    std::string line;
    while (std::getline(file, line)) {
        // C++ reads the shared texts too and guards them with this; GLSL has no such line.
        if (line.rfind("#pragma once", 0) == 0) continue;
        const std::string other = included_name(line);
        if (other.empty())
            text += line + '\n';
        else if (Outcome problem = append_file(folder, other, seen, text))
            return problem;
    }
    return std::nullopt;
}

} // namespace

Result<std::string> shader_source(const fs::path& folder, const std::string& name) {
    std::set<std::string> seen;
    std::string text;
    if (Outcome problem = append_file(folder, name, seen, text)) return *problem;
    return text;
}

} // namespace keystead
