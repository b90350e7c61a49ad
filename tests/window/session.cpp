#include "tests/window/session.h"

#include "engine/render/png.h"
#include "sim/set/set_io.h"
#include "support/helpers/run.h"
#include "tests/engine/ui/sets.h"
#include "tests/window/wait.h"

#include <exception>

namespace keystead::journeys {

namespace fs = std::filesystem;

Session::Session(const std::string& name, const Screen& on)
    : screen(on)
    , hand(screen)
    , name_(name)
    , folder_(testing::scratch_folder("window-" + name)) {
    fs::create_directories(sets());
    fs::create_directories(settings_file().parent_path());
    testing::write_text(settings_file().string(), "{\"hints_done\": 7}\n");
}

Session::~Session() {
    if (std::uncaught_exceptions() > 0) photograph("failed-" + name_, 0.0);
}

fs::path Session::settings_file() const {
    return folder_ / "config" / "keystead" / "window.json";
}

fs::path Session::unsaved_folder() const {
    return folder_ / "state" / "keystead" / "unsaved";
}

void Session::start(const std::vector<std::string>& words) {
    std::vector<std::string> all{std::string(KEYSTEAD_BINARY_DIR) + "/keystead", "open"};
    all.insert(all.end(), words.begin(), words.end());
    ChildOptions options;
    options.folder = sets().string();
    options.log = (folder_ / "log.txt").string();
    options.environment = {{"DISPLAY", screen.name()},
                           {"WAYLAND_DISPLAY", ""},
                           {"HOME", folder_.string()},
                           {"XDG_CONFIG_HOME", (folder_ / "config").string()},
                           {"XDG_STATE_HOME", (folder_ / "state").string()},
                           // Compiled shaders may be found again by the next session.
                           {"XDG_CACHE_HOME", (folder_.parent_path() / "window-cache").string()}};
    program_ = Child(all, options);
    wait_for("the window", [&] {
        if (!program_.running()) FAIL("the program ended: " << text_of(folder_ / "log.txt"));
        return screen.title().find(" – Keystead") != std::string::npos;
    });
    screen.focus();
}

int Session::quit() {
    hand.key("ctrl+q");
    return program_.status_within(patience_s);
}

void Session::kill_after(const std::function<bool()>& holds) {
    wait_for("the moment to kill the program", holds);
    program_.kill_now();
}

std::string Session::saved(const fs::path& file, const std::string& what,
                           const std::function<bool(const std::string&)>& wanted) {
    std::string text;
    int polls = 0;
    wait_for(what + " in " + file.filename().string(), [&] {
        // Keys may overtake a background result, not an edit: asking again now and then is enough.
        if (polls++ % 20 == 0) hand.key("ctrl+s");
        text = text_of(file);
        return !text.empty() && wanted(text);
    });
    return text;
}

void Session::wait_for_title(const std::string& name) const {
    wait_for("the title " + name, [&] { return screen.title() == name + " – Keystead"; });
}

void Session::photograph(const std::string& name, double settle_s) const {
    RgbaImage last = screen.seen();
    int same = 0;
    within(settle_s, [&] {
        RgbaImage now = screen.seen();
        same = now.pixels == last.pixels ? same + 1 : 0;
        last = std::move(now);
        return same > 20;
    });
    const fs::path folder = fs::path(KEYSTEAD_SOURCE_DIR) / "out" / "journeys";
    fs::create_directories(folder);
    const Outcome problem = write_png(last, folder / (name + ".png"));
    INFO((problem ? problem->message() : std::string()));
    CHECK_FALSE(problem);
}

Set rehearsal() {
    Set set = ui::testing::example("overreach");
    set.name = "Rehearsal";
    Support& support = set.lights.front().support;
    support.base.position_m = {-1.1, 1.5};
    support.base.foot_radius_m = 0.5;
    support.arm->reach_m = 0.65;
    Bag bag;
    bag.from = "bag-15.9";
    bag.mass_kg = 15.9;
    bag.place = BagPlace::column;
    support.bags = {bag};
    return set;
}

std::string text_of(const fs::path& file) {
    return testing::read_text(file.string());
}

Set set_in(const fs::path& file) {
    Result<LoadedSet> loaded = load_set(file);
    INFO((loaded ? std::string() : loaded.problem().message()));
    REQUIRE(loaded);
    return std::move(loaded).value().set;
}

} // namespace keystead::journeys
