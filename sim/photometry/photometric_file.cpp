#include "sim/photometry/photometric_file.h"

#include "sim/photometry/number_stream.h"

#include <algorithm>
#include <cctype>
#include <fstream>
#include <sstream>

namespace keystead {

namespace {

constexpr std::uintmax_t most_bytes = 16U << 20U;

Result<std::string> text_of(const std::filesystem::path& file) {
    std::error_code error;
    const std::string name = file.filename().string();
    if (!std::filesystem::is_regular_file(file, error)) return Problem{name, "", "no such file"};
    const auto size = std::filesystem::file_size(file, error);
    if (error) return Problem{name, "", "cannot be read"};
    if (size == 0) return Problem{name, "", "is empty"};
    if (size > most_bytes)
        return Problem{name, std::to_string(size) + " bytes", "are more than the 16 MiB taken"};
    std::ifstream stream(file, std::ios::binary);
    std::ostringstream text;
    text << stream.rdbuf();
    if (!stream) return Problem{name, "", "cannot be read"};
    return text.str();
}

bool looks_like_lm63(std::string_view text) {
    std::string upper(text.substr(0, 65536));
    std::transform(upper.begin(), upper.end(), upper.begin(),
                   [](unsigned char c) { return static_cast<char>(std::toupper(c)); });
    return upper.find("TILT") != std::string::npos || upper.starts_with("IES") ||
           upper.find("\nIES") != std::string::npos;
}

} // namespace

Result<Distribution> parse_photometric(std::string_view text, const std::string& name,
                                       const SiblingText& sibling) {
    if (text.starts_with("\xFF\xFE") || text.starts_with("\xFE\xFF"))
        return Problem{name, "UTF-16 text", "is not read; save it as plain text"};
    if (text.find('\0') != std::string_view::npos)
        return Problem{name, "binary data", "is no IES LM-63 or EULUMDAT text"};
    if (looks_like_lm63(text)) return parse_lm63(text, name, sibling);
    return parse_eulumdat(text, name);
}

Result<Distribution> read_photometric_file(const std::filesystem::path& file) {
    const auto text = text_of(file);
    if (!text) return text.problem();
    const auto sibling = [&file](const std::string& name) -> Result<std::string> {
        const std::filesystem::path plain(name);
        if (plain.has_parent_path() || name.find('\\') != std::string::npos)
            return Problem{name, "", "leaves the file's own folder"};
        return text_of(file.parent_path() / plain);
    };
    return parse_photometric(text.value(), file.filename().string(), sibling);
}

} // namespace keystead
