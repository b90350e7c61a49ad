#include "tools/keystead/common.h"

#include "sim/set/set_io.h"

#include <charconv>
#include <cstdio>
#include <filesystem>
#include <unistd.h>

namespace keystead {

void complain(const std::string& message) {
    std::fprintf(stderr, "keystead: %s\n", message.c_str());
}

std::optional<Set> load_or_complain(const std::string& file) {
    Result<LoadedSet> loaded = load_set(file);
    if (!loaded) {
        complain(loaded.problem().message());
        return std::nullopt;
    }
    for (const Problem& note : loaded.value().notes) complain(file + ": " + note.message());
    return std::move(loaded).value().set;
}

std::shared_ptr<const Studio> studio_or_complain(const Set& set, const std::string& file) {
    auto studio = make_studio(set, nullptr, std::filesystem::path(file).parent_path());
    bool subject_missing = false;
    for (const Problem& problem : studio->problems) {
        complain(file + ": " + problem.message());
        subject_missing = subject_missing || problem.path.starts_with("subject");
    }
    return subject_missing ? nullptr : studio;
}

Result<PixelSize> parse_size(const std::string& text) {
    PixelSize size;
    const char* end = text.data() + text.size();
    const auto width = std::from_chars(text.data(), end, size.width);
    const Problem problem{"--size", text, "is not WIDTHxHEIGHT with sides from 16 to 8192 pixels"};
    if (width.ec != std::errc{} || width.ptr == end || *width.ptr != 'x') return problem;
    const auto height = std::from_chars(width.ptr + 1, end, size.height);
    if (height.ec != std::errc{} || height.ptr != end) return problem;
    const auto allowed = [](int side) { return side >= 16 && side <= 8192; };
    if (!allowed(size.width) || !allowed(size.height)) return problem;
    return size;
}

bool show_progress(double share) {
    if (isatty(STDERR_FILENO) != 0)
        std::fprintf(stderr, "\r%3.0f %%%s", 100.0 * share, share >= 1.0 ? "\n" : "");
    return true;
}

} // namespace keystead
