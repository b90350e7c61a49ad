#include "sim/import/uri.h"

#include <algorithm>
#include <array>
#include <cctype>

namespace keystead::importing {

namespace fs = std::filesystem;

namespace {

int hex_digit(char c) {
    if (c >= '0' && c <= '9') return c - '0';
    if (c >= 'a' && c <= 'f') return c - 'a' + 10;
    if (c >= 'A' && c <= 'F') return c - 'A' + 10;
    return -1;
}

int base64_digit(char c) {
    if (c >= 'A' && c <= 'Z') return c - 'A';
    if (c >= 'a' && c <= 'z') return c - 'a' + 26;
    if (c >= '0' && c <= '9') return c - '0' + 52;
    if (c == '+') return 62;
    if (c == '/') return 63;
    return -1;
}

std::optional<Bytes> decode_base64(std::string_view text) {
    while (!text.empty() && text.back() == '=') text.remove_suffix(1);
    if (text.size() % 4 == 1) return std::nullopt;
    Bytes bytes;
    bytes.reserve(text.size() / 4 * 3 + 2);
    std::uint32_t held = 0;
    unsigned bits = 0;
    for (const char c : text) {
        const int digit = base64_digit(c);
        if (digit < 0) return std::nullopt;
        held = (held << 6U) | static_cast<std::uint32_t>(digit);
        bits += 6;
        if (bits < 8) continue;
        bits -= 8;
        bytes.push_back(static_cast<std::uint8_t>((held >> bits) & 0xFFU));
    }
    return bytes;
}

/// Why a decoded name may not be followed; empty if it may.
std::string_view refusal(const std::string& name) {
    if (name.empty()) return "names no file";
    if (name.find('\0') != std::string::npos) return "holds a zero byte";
    if (name.find('\\') != std::string::npos) return "holds a backslash";
    if (name.front() == '/') return "is an absolute path";
    const std::size_t colon = name.find(':');
    if (colon != std::string::npos && colon < name.find('/'))
        return "names another place than this folder";
    for (const fs::path& part : fs::path(name))
        if (part == "..") return "leads out of the file's folder";
    return {};
}

bool is_below(const fs::path& file, const fs::path& folder) {
    const auto [in_folder, in_file] =
        std::mismatch(folder.begin(), folder.end(), file.begin(), file.end());
    return in_folder == folder.end() && in_file != file.end();
}

} // namespace

std::string percent_decoded(std::string_view text) {
    std::string out;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const int high = text[i] == '%' && i + 2 < text.size() ? hex_digit(text[i + 1]) : -1;
        const int low = high >= 0 ? hex_digit(text[i + 2]) : -1;
        if (low < 0) {
            out += text[i];
            continue;
        }
        out += static_cast<char>(high * 16 + low);
        i += 2;
    }
    return out;
}

bool is_data_uri(std::string_view uri) {
    constexpr std::string_view scheme = "data:";
    return uri.size() >= scheme.size() &&
           std::equal(scheme.begin(), scheme.end(), uri.begin(), [](char want, char got) {
               return want == std::tolower(static_cast<unsigned char>(got));
           });
}

std::optional<Bytes> decode_data_uri(std::string_view uri) {
    const std::size_t comma = uri.find(',');
    constexpr std::string_view marker = ";base64";
    if (comma == std::string_view::npos || !uri.substr(0, comma).ends_with(marker))
        return std::nullopt;
    return decode_base64(uri.substr(comma + 1));
}

Result<fs::path> file_in_folder(std::string_view uri, const fs::path& folder, const Blame& blame,
                                std::string_view place) {
    constexpr std::string_view remedy = "put the file beside this one and refer to it by its name";
    const std::string decoded = percent_decoded(uri);
    for (const std::string& name : {decoded, std::string(uri)})
        if (const std::string_view why = refusal(name); !why.empty())
            return blame.problem(place, in_quotes(uri) + " " + std::string(why), remedy);
    std::error_code error;
    const fs::path home = fs::canonical(folder.empty() ? fs::path(".") : folder, error);
    if (error) return blame.problem(place, "its folder cannot be read", "check its permissions");
    fs::path file = home / decoded;
    if (!fs::exists(file, error) && fs::exists(home / std::string(uri), error))
        file = home / std::string(uri);
    const fs::path real = fs::weakly_canonical(file, error);
    if (error || !is_below(real, home))
        return blame.problem(place, in_quotes(uri) + " leads out of the file's folder", remedy);
    return real;
}

} // namespace keystead::importing
