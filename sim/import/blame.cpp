#include "sim/import/blame.h"

#include "sim/base/text.h"

#include <array>
#include <cstdio>

namespace keystead::importing {

namespace {

constexpr std::size_t longest_quote = 60;

} // namespace

std::string in_quotes(std::string_view text) {
    return "\"" + one_line(text, longest_quote) + "\"";
}

std::string byte_count(std::uint64_t bytes) {
    if (bytes < 1'000'000) return std::to_string(bytes) + (bytes == 1 ? " byte" : " bytes");
    std::array<char, 40> text{};
    const double millions = static_cast<double>(bytes) * 1e-6;
    if (millions < 1000.0)
        std::snprintf(text.data(), text.size(), "%.1f MB", millions);
    else
        std::snprintf(text.data(), text.size(), "%.1f GB", millions * 1e-3);
    return text.data();
}

Blame::Blame(const std::filesystem::path& file)
    : name_(one_line(file.filename().string(), 120)) {
    if (name_.empty()) name_ = one_line(file.string(), 120);
}

Problem Blame::problem(std::string_view place, std::string_view found,
                       std::string_view remedy) const {
    std::string path = name_;
    if (!place.empty()) path += ", " + std::string(place);
    return {path, std::string(found) + ";", std::string(remedy)};
}

Problem Blame::damaged(std::string_view place, std::string_view found) const {
    return problem(place, found, "the file is damaged, export it again");
}

Problem Blame::stopped() const {
    return problem("", "the import was stopped", "open it again");
}

} // namespace keystead::importing
