// From the list of files to a stand that tips, its remedy, and back: one run of the program.
#include "sim/set/set_io.h"
#include "tests/window/twins.h"
#include "tests/window/wait.h"

#include <catch2/catch.hpp>

using namespace keystead;
using namespace keystead::journeys;
using ui::GripKind;
using ui::Plane;
using ui::Selection;
using ui::Thing;

namespace {

const Selection key_light{Thing::light, "key"};

Verdict verdict_of_key(const Mirror& mirror) {
    return mirror.app.drawn.stability[*light_index(mirror.set(), "key")].verdict;
}

} // namespace

TEST_CASE("A set is opened, tipped, mended and undone until its file is what it was") {
    Twins twins("tipping");
    Session& session = twins.session;
    Mirror& mirror = twins.mirror;
    const std::filesystem::path file = session.sets() / "rehearsal.json";
    const Set original = rehearsal();
    REQUIRE_FALSE(save_set(original, file));
    const std::string bytes = text_of(file);

    // 1: the list of files shows the folder it was started in.
    session.start({});
    session.wait_for_title("new set");
    session.hand.key("ctrl+o");
    ui::open_file_list(mirror.app.files, session.sets(), false, "");
    mirror.frames(3);
    const ImVec2 entry = mirror.find(file.string(), {360, 130, 400, 460}, 60.0F);
    twins.to(entry);
    twins.expect_same({360, 130, 560, 460}, "the list of files");
    session.photograph("01-list-of-files", 0.2);
    session.hand.click(entry);
    session.wait_for_title("Rehearsal");
    mirror.app.files.open = false;
    mirror.show(set_in(file), file);
    CHECK(verdict_of_key(mirror) == Verdict::stable);
    twins.expect_same_verdicts();
    CHECK_FALSE(mirror.any_danger());
    session.photograph("01-opened");

    // 2: the stand follows the pointer over the plan, in steps of five centimetres.
    const ImVec2 hub = mirror.grip(Plane::plan, GripKind::base, key_light);
    const float px = mirror.plan().px(0.4);
    const Vec2 old = mirror.base("key");
    twins.drag(hub, {hub.x - std::round(0.25F * px), hub.y + std::round(px)});
    CHECK(mirror.base("key").x == Approx(old.x - 0.1).margin(0.051));
    CHECK(mirror.base("key").y == Approx(old.y + 0.4).margin(0.051));
    twins.saved(file, "the stand at its new place");
    session.photograph("02-stand-dragged");

    // 3: the arm is pulled out past what the feet carry.
    const std::size_t key = *light_index(mirror.set(), "key");
    const ui::Page plan = mirror.plan();
    const SupportPose& pose = mirror.app.drawn.poses[key];
    const ImVec2 lamp = mirror.grip(Plane::plan, GripKind::body, key_light);
    const ImVec2 tip = plan.at(pose.tip_m), top = plan.at(pose.column_top_m);
    const float out = plan.px(0.75) / std::hypot(tip.x - top.x, tip.y - top.y);
    twins.drag(lamp, {std::round(lamp.x + out * (tip.x - top.x)),
                      std::round(lamp.y + out * (tip.y - top.y))});
    CHECK(mirror.set().lights[key].support.arm->reach_m > 1.25);
    CHECK(verdict_of_key(mirror) == Verdict::unstable);
    twins.saved(file, "the long arm");
    twins.expect_same_verdicts();
    CHECK(mirror.any_danger());
    session.photograph("03-arm-too-long");

    // 4: the button on the finding mends it; a second one may follow.
    int mended = 0;
    for (; mirror.any_danger() && mended < 4; ++mended) {
        const ImVec2 button = mirror.find("mend 0", mirror.layout().findings);
        twins.click(button);
        twins.expect_same_verdicts();
    }
    CHECK(mended > 0);
    CHECK_FALSE(mirror.any_danger());
    CHECK(verdict_of_key(mirror) != Verdict::unstable);
    twins.saved(file, "the remedy");
    session.photograph("04-mended");

    // 5: undo takes it all back, however often it was saved between.
    for (int i = 0; i < 2 + mended; ++i) session.hand.key("ctrl+z");
    session.saved(file, "the original", [&](const std::string& text) { return text == bytes; });
    mirror.show(original, file);
    twins.expect_same_verdicts();
    session.photograph("05-undone");
    CHECK(session.quit() == 0);
    CHECK(text_of(session.settings_file()).find(file.string()) != std::string::npos);
}
