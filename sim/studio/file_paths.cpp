#include "sim/studio/file_paths.h"

#include <system_error>

namespace keystead {

namespace fs = std::filesystem;

namespace {

fs::path whole(const fs::path& path) {
    std::error_code failed;
    fs::path canonical = fs::weakly_canonical(fs::absolute(path, failed), failed);
    return failed ? path : canonical;
}

} // namespace

std::string path_in_set(const fs::path& file, const fs::path& folder) {
    const fs::path absolute = whole(file);
    if (folder.empty()) return absolute.string();
    const fs::path relative = absolute.lexically_relative(whole(folder));
    const bool below = !relative.empty() && *relative.begin() != "..";
    return (below ? relative : absolute).string();
}

std::vector<MovedPath> moved_paths(const Set& set, const fs::path& from, const fs::path& to) {
    std::vector<MovedPath> moved;
    const auto look = [&](std::string path, const std::string& file) {
        const fs::path old(file);
        std::string now = path_in_set(old.is_absolute() ? old : from / old, to);
        if (now != file) moved.push_back({std::move(path), std::move(now)});
    };
    if (set.subject.file) look("subject.file.path", set.subject.file->path);
    for (const Prop& prop : set.props) look("props[" + prop.id + "].path", prop.path);
    for (const Light& light : set.lights)
        if (light.modifier.photometric)
            look("lights[" + light.id + "].modifier.photometric.path",
                 light.modifier.photometric->path);
    return moved;
}

} // namespace keystead
