#include "engine/ui/autosave.h"
#include "engine/ui/settings.h"
#include "tests/engine/ui/sets.h"

#include <filesystem>
#include <fstream>
#include <unistd.h>

using namespace keystead;
using namespace keystead::ui;
namespace fs = std::filesystem;

namespace {

struct Folder {
    fs::path path = fs::temp_directory_path() / ("keystead-ui-" + std::to_string(getpid()));
    Folder() { fs::create_directories(path); }
    ~Folder() { fs::remove_all(path); }
};

} // namespace

TEST_CASE("The window's settings survive a run") {
    const Folder folder;
    Settings settings;
    settings.theme = ThemeKind::light;
    settings.surround = Surround::middle;
    settings.arrangement = 2;
    settings.splits[1].main = 0.4F;
    settings.recent = {"/a/b.json", "/c/d.json"};
    save_settings(settings, folder.path / "deep" / "window.json");
    const Settings back = load_settings(folder.path / "deep" / "window.json");
    CHECK(back.theme == ThemeKind::light);
    CHECK(back.surround == Surround::middle);
    CHECK(back.arrangement == 2);
    REQUIRE(back.splits[1].main);
    CHECK(*back.splits[1].main == Approx(0.4F));
    CHECK_FALSE(back.splits[1].cross);
    CHECK(back.recent == settings.recent);
}

TEST_CASE("Settings that cannot be read are the defaults") {
    const Folder folder;
    for (const char* text :
         {"", "[1,2]", "{\"theme\": 7, \"splits\": {\"a\": 1}, \"recent\": [1, null]}",
          "{\"arrangement\": 99}"}) {
        std::ofstream(folder.path / "bad.json") << text;
        const Settings settings = load_settings(folder.path / "bad.json");
        CHECK(settings.theme == ThemeKind::dark);
        CHECK(settings.arrangement <= 3);
        CHECK(settings.recent.empty());
    }
    CHECK(load_settings(folder.path / "nothing.json").theme == ThemeKind::dark);
}

TEST_CASE("Unsaved changes are kept aside, and taken away once they are saved") {
    const Folder folder;
    Autosave autosave(folder.path);
    App app;
    show_set(app, testing::example("overreach"), {});
    const auto kept = [&] { return !fs::is_empty(folder.path); };
    autosave.keep(app, 100.0);
    CHECK_FALSE(kept());
    REQUIRE_FALSE(app.history.run(SetValue{"room.ceiling_m", "3.3"}));
    autosave.keep(app, 100.0);
    REQUIRE(kept());
    const Result<LoadedSet> copy = load_set(fs::directory_iterator(folder.path)->path());
    REQUIRE(copy);
    CHECK(copy.value().set.room.ceiling_m == Approx(3.3));
    // This session still runs, so its copy is nobody else's.
    CHECK(Autosave::left_behind(folder.path).empty());
    app.history.mark_saved();
    autosave.keep(app, 101.0);
    CHECK_FALSE(kept());
}

TEST_CASE("The copy of a session that broke off is found") {
    const Folder folder;
    // No process has this number: Linux stops at 4 194 304 (proc(5), pid_max).
    std::ofstream(folder.path / "session-9999999.json") << "{}";
    std::ofstream(folder.path / "other.json") << "{}";
    const auto found = Autosave::left_behind(folder.path);
    REQUIRE(found.size() == 1);
    CHECK(found[0].filename() == "session-9999999.json");
}
