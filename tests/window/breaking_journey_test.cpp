// A session that is killed and one that takes up where it broke off; files dropped on the window.
#include "engine/ui/recovery.h"
#include "engine/ui/unsaved_copy.h"
#include "sim/set/set_io.h"
#include "support/helpers/run.h"
#include "tests/window/twins.h"
#include "tests/window/wait.h"

#include <catch2/catch.hpp>

using namespace keystead;
using namespace keystead::journeys;
using ui::GripKind;
using ui::Plane;
using ui::Thing;

namespace fs = std::filesystem;

namespace {

Set fresh() {
    Set set;
    set.name = "new set";
    return set;
}

/// The running session has kept that set aside.
bool copy_holds(const fs::path& folder, const std::string& text) {
    std::error_code error;
    for (fs::directory_iterator it(folder, error), end; !error && it != end; it.increment(error)) {
        if (it->path().extension() != ".unsaved") continue; // half written
        const Result<ui::UnsavedCopy> copy = ui::read_unsaved(it->path());
        if (copy && write_set(copy.value().set) == text) return true;
    }
    return false;
}

/// One more file on the window, in the mirror as in the real one.
void drop(Twins& twins, const fs::path& file) {
    REQUIRE(twins.session.screen.drop(file, 640, 300));
    ui::Outbox out;
    out.wish(ui::Act::open_file, file.string());
    carry_out(twins.mirror.app, out);
    twins.mirror.frames(2);
}

std::string replaced(std::string text, const std::string& what, const std::string& by) {
    const std::size_t at = text.find(what);
    REQUIRE(at != std::string::npos);
    return text.replace(at, what.size(), by);
}

} // namespace

TEST_CASE("What a killed session had not saved comes back, and a bad file changes nothing") {
    Twins twins("breaking");
    Session& session = twins.session;
    Mirror& mirror = twins.mirror;
    const fs::path file = session.sets() / "rehearsal.json";
    REQUIRE_FALSE(save_set(rehearsal(), file));
    const std::string original = text_of(file);
    session.start({file.string()});
    session.wait_for_title("Rehearsal");
    mirror.show(set_in(file), file);

    // 9: an edit, kill -9, and the next start offers it.
    const ImVec2 hub = mirror.grip(Plane::plan, GripKind::base, {Thing::light, "rim"});
    twins.drag(hub, {hub.x - 60.0F, hub.y + 10.0F});
    const std::string edited = mirror.text();
    REQUIRE(edited != original);
    session.kill_after([&] { return copy_holds(session.unsaved_folder(), edited); });
    CHECK(text_of(file) == original);
    session.start({});
    session.wait_for_title("new set");
    mirror.show(fresh(), {});
    mention_left_behind(mirror.app, session.unsaved_folder());
    mirror.frames(2);
    twins.away();
    twins.expect_same(mirror.layout().menu, "the word about what was not saved");
    REQUIRE(mirror.app.left_behind.size() == 1);
    const ui::LeftBehind copy = mirror.app.left_behind.front();
    twins.menu("Set", "Not saved when a session broke off");
    const std::string entry = copy.name + ", " + ui::when_words(copy.written_s, ui::seconds_now()) +
                              ", of rehearsal.json##" + copy.copy.string();
    twins.click(mirror.find(entry, {250, 34, 700, 400}, 40.0F));
    const ImVec2 back = mirror.find("Bring it back", {400, 34, 800, 400}, 40.0F);
    twins.to(back);
    session.photograph("09-after-a-kill", 0.5);
    twins.click(back);
    session.wait_for_title("Rehearsal");
    CHECK(mirror.text() == edited);
    // Its own file is offered and not taken: it might be newer.
    twins.control('S');
    twins.away();
    twins.expect_same({362, 132, 556, 456}, "the list to save in");
    twins.key(ImGuiKey_Enter);
    twins.expect_same({362, 132, 556, 456}, "the question whether to replace the file");
    twins.name_file("");
    wait_for("the edited set in its file", [&] { return text_of(file) == edited; });
    wait_for("the copy to go away",
             [&] { return ui::left_behind(session.unsaved_folder()).empty(); });

    mirror.show(set_in(file), file);

    // 10: the notice says what is wrong with a file, and the set stays.
    const fs::path bad = session.sets() / "bad.json", other = session.sets() / "other.json";
    testing::write_text(bad.string(), replaced(original, "\"reach_m\": 0.65", "\"reach_m\": 9.0"));
    testing::write_text(other.string(), replaced(original, "\"Rehearsal\"", "\"Other\""));
    drop(twins, bad);
    CHECK(mirror.app.notice_is_bad);
    for (const char* part : {"bad.json", "lights[0].support.arm.reach_m", "9", "1.5"})
        CHECK(mirror.app.notice.find(part) != std::string::npos);
    twins.away();
    // Its whole text is on a card over the views, since the menu's line is too short for it.
    const ui::Rect views{520, mirror.layout().menu.bottom(), 440, 110};
    twins.expect_same(views, "the notice about the bad file");
    CHECK(pixels_of(session.screen.seen(views), mirror.table.theme.colour.danger) > 600);
    session.photograph("10-bad-file-dropped", 0.5);
    twins.click({700, mirror.layout().menu.bottom() + 20.0F});
    CHECK(mirror.app.notice.empty());
    twins.away();
    wait_for("the card to go", [&] {
        return pixels_of(session.screen.seen(views), mirror.table.theme.colour.danger) == 0;
    });
    CHECK(session.screen.title() == "Rehearsal – Keystead");
    CHECK(mirror.text() == edited);
    twins.saved(file, "the set as it was");
    // A good one by the same way is opened.
    drop(twins, other);
    session.wait_for_title("Other");
    CHECK(session.quit() == 0);
}
