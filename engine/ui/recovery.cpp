#include "engine/ui/recovery.h"

#include <algorithm>

namespace keystead::ui {

namespace fs = std::filesystem;

namespace {

const LeftBehind* find(const App& app, const fs::path& copy) {
    const auto found = std::find_if(app.left_behind.begin(), app.left_behind.end(),
                                    [&](const LeftBehind& each) { return each.copy == copy; });
    return found == app.left_behind.end() ? nullptr : &*found;
}

void forget(App& app, const fs::path& copy) {
    std::error_code error;
    fs::remove(copy, error);
    std::erase_if(app.left_behind, [&](const LeftBehind& each) { return each.copy == copy; });
    if (app.brought_back == copy) app.brought_back.clear();
}

} // namespace

void mention_left_behind(App& app, const fs::path& folder) {
    app.left_behind = left_behind(folder);
    if (app.left_behind.empty() || !app.notice.empty()) return;
    const LeftBehind& newest = app.left_behind.front();
    app.notice = newest.name + " of " + when_words(newest.written_s, seconds_now()) +
                 " was not saved; the Set menu brings it back";
}

void bring_back(App& app, const fs::path& copy) {
    Result<UnsavedCopy> read = read_unsaved(copy);
    if (!read) {
        app.notice = read.problem().message();
        app.notice_is_bad = true;
        return;
    }
    const UnsavedCopy unsaved = std::move(read).value();
    show_set(app, unsaved.set, unsaved.file);
    app.history.mark_unsaved();
    app.brought_back = copy;
    app.notice = "brought back as it was at " + when_words(unsaved.written_s, seconds_now()) +
                 ", not saved yet";
    app.notice_is_bad = false;
}

void drop_copy(App& app, const fs::path& copy) {
    const LeftBehind* dropped = find(app, copy);
    if (dropped == nullptr) return;
    app.notice = "the copy of " + dropped->name + " is dropped";
    app.notice_is_bad = false;
    forget(app, copy);
}

void brought_back_is_saved(App& app) {
    if (!app.brought_back.empty()) forget(app, fs::path(app.brought_back));
}

} // namespace keystead::ui
