#include "engine/ui/set_commands.h"
#include "engine/ui/settings.h"

#include <catch2/catch.hpp>
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

TEST_CASE("A file whose name is no UTF-8 harms neither settings nor commands") {
    const Folder folder;
    Settings settings;
    settings.recent = {"/a/b\xFF.json", "/c/d.json"};
    save_settings(settings, folder.path / "window.json");
    CHECK(load_settings(folder.path / "window.json").recent.back() == "/c/d.json");
    CHECK(std::get<SetValue>(set_word("subject.file.path", "b\xFF.obj")).value ==
          "\"b\xEF\xBF\xBD.obj\"");
}
