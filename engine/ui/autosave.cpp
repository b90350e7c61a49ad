#include "engine/ui/autosave.h"

#include "engine/ui/set_commands.h"
#include "sim/set/set_io.h"

#include <algorithm>
#include <cstdlib>
#include <unistd.h>

namespace keystead::ui {

namespace fs = std::filesystem;

fs::path unsaved_folder() {
    if (const char* state = std::getenv("XDG_STATE_HOME"); state != nullptr && *state != 0)
        return fs::path(state) / "keystead" / "unsaved";
    if (const char* home = std::getenv("HOME"); home != nullptr && *home != 0)
        return fs::path(home) / ".local" / "state" / "keystead" / "unsaved";
    return {};
}

Autosave::Autosave(fs::path folder)
    : folder_(std::move(folder)) {
    // One file a session, told apart by the process.
    if (!folder_.empty()) file_ = folder_ / ("session-" + std::to_string(getpid()) + ".json");
}

void Autosave::keep(const App& app, double now_s, double every_s) {
    if (file_.empty() || app.dragging()) return;
    if (!app.history.dirty()) {
        if (written_ != 0) finish();
        return;
    }
    if (app.revision() == written_ || now_s - written_s_ < every_s) return;
    std::error_code error;
    fs::create_directories(folder_, error);
    // A failure here is not worth a message: the set itself is untouched and can be saved.
    const Result<Set> found_again = keystead::apply(
        app.history.set(), Batch{"", path_commands(app.history.set(), app.folder(), folder_)});
    if (save_set(found_again ? found_again.value() : app.history.set(), file_)) return;
    fs::remove(fs::path(file_) += "~", error);
    written_ = app.revision();
    written_s_ = now_s;
}

void Autosave::finish() {
    std::error_code error;
    fs::remove(file_, error);
    written_ = 0;
}

std::vector<fs::path> Autosave::left_behind(const fs::path& folder) {
    std::vector<fs::path> files;
    std::error_code error;
    for (fs::directory_iterator it(folder, error), end; !error && it != end; it.increment(error)) {
        const std::string stem = it->path().stem().string();
        if (it->path().extension() != ".json" || stem.rfind("session-", 0) != 0) continue;
        // A session that still runs looks after its own.
        const long process = std::strtol(stem.c_str() + 8, nullptr, 10);
        if (process > 0 && fs::exists("/proc/" + std::to_string(process), error)) continue;
        files.push_back(it->path());
    }
    const auto age = [](const fs::path& file) {
        std::error_code ignored;
        return fs::last_write_time(file, ignored);
    };
    std::sort(files.begin(), files.end(),
              [&](const fs::path& a, const fs::path& b) { return age(a) > age(b); });
    return files;
}

} // namespace keystead::ui
