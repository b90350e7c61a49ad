// What a session that broke off left behind: written in time, found, brought back, saved or
// dropped.
#include "engine/ui/autosave.h"
#include "engine/ui/recovery.h"
#include "tests/engine/ui/sets.h"

#include <fstream>
#include <unistd.h>

using namespace keystead;
using namespace keystead::ui;
namespace fs = std::filesystem;

namespace {

struct Folder {
    fs::path path = fs::temp_directory_path() / ("keystead-back-" + std::to_string(::getpid()));
    Folder() { fs::create_directories(path); }
    ~Folder() { fs::remove_all(path); }
};

void settle(const Autosave& autosave) {
    for (int i = 0; i < 2000 && autosave.busy(); ++i) ::usleep(1000);
    REQUIRE_FALSE(autosave.busy());
}

void wish(App& app, Act act, const std::string& text = {}) {
    Outbox out;
    out.wish(act, text);
    carry_out(app, out);
}

/// A copy as a session leaves it whose process is gone: no process has this number, Linux stops at
/// 4 194 304 (proc(5), pid_max).
fs::path leave_behind(const fs::path& folder, const std::string& number, const UnsavedCopy& copy) {
    const fs::path file = folder / ("session-999999" + number + "-5.unsaved");
    std::ofstream(file) << unsaved_text(copy);
    return file;
}

Set changed(double ceiling_m) {
    Set set = ui::testing::example("overreach");
    set.room.ceiling_m = ceiling_m;
    return set;
}

} // namespace

TEST_CASE("Unsaved changes are kept aside, in a drag too, and taken away once they are saved",
          "[ui][autosave]") {
    const Folder folder;
    Autosave autosave(folder.path / "unsaved", std::chrono::milliseconds(20));
    App app;
    show_set(app, ui::testing::example("overreach"), folder.path / "mine.json");
    const auto kept = [&] {
        settle(autosave);
        const auto copy = read_unsaved(own_copy(folder.path / "unsaved"));
        return copy ? std::optional(copy.value()) : std::nullopt;
    };
    autosave.keep(app);
    CHECK_FALSE(kept());
    REQUIRE_FALSE(app.history.run(SetValue{"room.ceiling_m", "3.3"}));
    autosave.keep(app);
    REQUIRE(kept());
    CHECK(kept()->set.room.ceiling_m == Approx(3.3));
    CHECK(kept()->file == folder.path / "mine.json");
    CHECK(std::abs(kept()->written_s - seconds_now()) < 5);
    app.history.begin_drag();
    REQUIRE_FALSE(app.history.run(SetValue{"room.ceiling_m", "3.4"}));
    autosave.keep(app);
    CHECK(kept()->set.room.ceiling_m == Approx(3.4));
    app.history.cancel_drag();
    autosave.keep(app);
    CHECK(kept()->set.room.ceiling_m == Approx(3.3));
    // This session still runs, so its copy is nobody else's.
    CHECK(left_behind(folder.path / "unsaved").empty());
    app.history.mark_saved();
    autosave.keep(app);
    CHECK_FALSE(kept());
    CHECK(fs::is_empty(folder.path / "unsaved"));
}

TEST_CASE("A session that ends as it should leaves nothing, one that is cut off its copy",
          "[ui][autosave]") {
    const Folder folder;
    App app;
    show_set(app, ui::testing::example("overreach"), {});
    REQUIRE_FALSE(app.history.run(SetValue{"room.ceiling_m", "3.3"}));
    for (const bool ends : {false, true}) {
        Autosave autosave(folder.path);
        autosave.keep(app);
        settle(autosave);
        CHECK_FALSE(fs::is_empty(folder.path));
        if (ends) autosave.finish();
        CHECK(fs::is_empty(folder.path) == ends);
    }
}

TEST_CASE("The window never waits for a disk that does not answer", "[ui][autosave]") {
    const Folder folder;
    // A file where the folder should be: nothing can be written, and it is tried again later.
    std::ofstream(folder.path / "blocked") << "";
    Autosave autosave(folder.path / "blocked" / "unsaved");
    App app;
    show_set(app, ui::testing::example("overreach"), {});
    REQUIRE_FALSE(app.history.run(SetValue{"room.ceiling_m", "3.3"}));
    autosave.keep(app);
    CHECK(autosave.busy());
}

TEST_CASE("What was left behind is found with its file and time, newest first", "[ui][recovery]") {
    const Folder folder;
    const fs::path mine = folder.path / "mine.json";
    REQUIRE_FALSE(save_set(changed(3.0), mine));
    const fs::path older = leave_behind(folder.path, "1", {mine, 1000, changed(3.1)});
    const fs::path newer = leave_behind(folder.path, "2", {{}, 2000, changed(3.2)});
    const fs::path twice = leave_behind(folder.path, "3", {{}, 1500, changed(3.2)});
    const fs::path saved = leave_behind(folder.path, "4", {mine, 3000, changed(3.0)});
    std::ofstream(folder.path / "session-9999995-5.unsaved") << "{\"format\":\"other\"}\n{}";
    std::ofstream(folder.path / "session-9999996-5.unsaved.saving-9999996") << "{";
    std::ofstream(folder.path / "other.unsaved") << "{}";
    const std::vector<LeftBehind> found = left_behind(folder.path);
    REQUIRE(found.size() == 2);
    CHECK(found[0].copy == newer);
    CHECK(found[0].file.empty());
    CHECK(found[1].copy == older);
    CHECK(found[1].file == mine);
    CHECK(found[1].written_s == 1000);
    CHECK(found[1].name == changed(3.1).name);
    // Said by a newer one or by the file itself: nothing is lost with them.
    CHECK_FALSE(fs::exists(twice));
    CHECK_FALSE(fs::exists(saved));
    CHECK_FALSE(fs::exists(folder.path / "session-9999996-5.unsaved.saving-9999996"));
    // Not ours to judge.
    CHECK(fs::exists(folder.path / "session-9999995-5.unsaved"));
    CHECK(fs::exists(folder.path / "other.unsaved"));
}

TEST_CASE("A set brought back is not saved, offers its own file, and its copy stays till then",
          "[ui][recovery]") {
    const Folder folder;
    const fs::path mine = folder.path / "mine.json";
    REQUIRE_FALSE(save_set(changed(3.0), mine));
    const fs::path copy = leave_behind(folder.path, "1", {mine, seconds_now(), changed(3.1)});
    App app;
    show_set(app, ui::testing::example("overreach"), {});
    mention_left_behind(app, folder.path);
    CHECK(app.notice.find("was not saved; the Set menu brings it back") != std::string::npos);
    wish(app, Act::bring_back, copy.string());
    CHECK(app.history.set().room.ceiling_m == Approx(3.1));
    CHECK(app.history.dirty());
    CHECK(app.file == mine);
    REQUIRE_FALSE(app.history.run(SetValue{"room.ceiling_m", "3.2"}));
    app.history.undo();
    CHECK(app.history.dirty()); // the beginning is not saved either
    // Ctrl+S: the file's name is offered, nothing is written over it yet.
    wish(app, Act::save);
    CHECK(app.files.open);
    CHECK(app.files.saving);
    CHECK(std::string(app.files.name) == "mine.json");
    CHECK(load_set(mine).value().set.room.ceiling_m == Approx(3.0));
    CHECK(fs::exists(copy));
    app.files = {};
    wish(app, Act::save_as, mine.string());
    CHECK_FALSE(app.history.dirty());
    CHECK(load_set(mine).value().set.room.ceiling_m == Approx(3.1));
    CHECK_FALSE(fs::exists(copy));
    CHECK(app.left_behind.empty());
    // From here on it is a set like any other.
    REQUIRE_FALSE(app.history.run(SetValue{"room.ceiling_m", "3.2"}));
    wish(app, Act::save);
    CHECK_FALSE(app.files.open);
    CHECK(load_set(mine).value().set.room.ceiling_m == Approx(3.2));
}

TEST_CASE("A copy that is left alone stays, one that is dropped goes", "[ui][recovery]") {
    const Folder folder;
    const fs::path copy = leave_behind(folder.path, "1", {{}, seconds_now(), changed(3.1)});
    App app;
    mention_left_behind(app, folder.path);
    wish(app, Act::bring_back, copy.string());
    wish(app, Act::new_set);
    REQUIRE(app.asked); // it is unsaved, so it is asked about
    app.asked.reset();
    app.unsaved_given_up = true;
    wish(app, Act::new_set);
    CHECK_FALSE(app.history.dirty());
    CHECK(fs::exists(copy));
    CHECK(left_behind(folder.path).size() == 1);
    wish(app, Act::drop_copy, copy.string());
    CHECK_FALSE(fs::exists(copy));
    CHECK(app.left_behind.empty());
    // A broken copy says so and leaves the set alone.
    std::ofstream(copy) << "{}";
    wish(app, Act::bring_back, copy.string());
    CHECK(app.notice_is_bad);
}

TEST_CASE("Changes given up for a file that cannot be opened are not taken for saved",
          "[ui][recovery]") {
    const Folder folder;
    App app;
    show_set(app, ui::testing::example("overreach"), {});
    REQUIRE_FALSE(app.history.run(SetValue{"room.ceiling_m", "3.3"}));
    wish(app, Act::open); // looking for a file gives nothing up
    CHECK_FALSE(app.asked);
    CHECK(app.files.open);
    wish(app, Act::open_file, (folder.path / "none.json").string());
    REQUIRE(app.asked);
    app.asked.reset();
    app.unsaved_given_up = true; // "leave them"
    wish(app, Act::open_file, (folder.path / "none.json").string());
    CHECK(app.history.dirty());
    CHECK(app.history.set().room.ceiling_m == Approx(3.3));
}

TEST_CASE("The time of a copy is said as a clock says it", "[ui][recovery]") {
    const std::int64_t now_s = seconds_now();
    CHECK(when_words(now_s, now_s).size() == 5);
    CHECK(when_words(now_s, now_s)[2] == ':');
    CHECK(when_words(now_s - 40 * 86400, now_s).size() > 10);
}
