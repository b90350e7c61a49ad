// From the list of files to a stand that tips, its remedy, and back: one run of the program.
#include "sim/set/set_io.h"
#include "tests/window/mirror.h"
#include "tests/window/session.h"
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

/// The same drag here and there; the real one must end on the same document.
void drag_both(Session& session, Mirror& mirror, const ImVec2& from, const ImVec2& on) {
    mirror.drag(from, on);
    mirror.let_go();
    session.hand.drag(from, on);
}

Verdict verdict_of_key(const Mirror& mirror) {
    return mirror.app.drawn.stability[*light_index(mirror.set(), "key")].verdict;
}

/// Strip and findings of the real window look as the mirror's; colours of the verdict included.
void expect_same_verdicts(const Session& session, Mirror& mirror) {
    mirror.catch_up(true);
    const ImVec2 nowhere{2.0F, 400.0F};
    mirror.to(nowhere), session.hand.to(nowhere);
    for (const ui::Rect& part : {mirror.layout().findings, mirror.layout().strip}) {
        const RgbaImage wanted = mirror.expected(part);
        double off = 1.0;
        const bool same = within(patience_s, [&] {
            off = differing(session.screen.seen(part), wanted);
            return off < 0.002;
        });
        INFO("share of pixels that differ: " << off);
        CHECK(same);
    }
}

} // namespace

TEST_CASE("A set is opened, tipped, mended and undone until its file is what it was") {
    Session session("tipping");
    const std::filesystem::path file = session.sets() / "rehearsal.json";
    const Set original = rehearsal();
    REQUIRE_FALSE(save_set(original, file));
    const std::string bytes = text_of(file);
    Mirror mirror(Set{}, {}, 1280.0F, 720.0F);

    // 1: the list of files shows the folder it was started in.
    session.start({});
    session.wait_for_title("new set");
    session.hand.key("ctrl+o");
    ui::open_file_list(mirror.app.files, session.sets(), false, "");
    mirror.frames(3);
    const ImVec2 entry = mirror.find(file.string(), {360, 130, 400, 460}, 60.0F);
    mirror.to(entry);
    session.hand.to(entry);
    wait_for("the list of files", [&] {
        return differing(session.screen.seen({360, 130, 560, 460}),
                         mirror.expected({360, 130, 560, 460})) < 0.002;
    });
    session.photograph("01-list-of-files", 0.2);
    session.hand.click(entry);
    session.wait_for_title("Rehearsal");
    mirror.app.files.open = false;
    mirror.show(set_in(file), file);
    CHECK(verdict_of_key(mirror) == Verdict::stable);
    expect_same_verdicts(session, mirror);
    CHECK_FALSE(mirror.any_danger());
    session.photograph("01-opened");

    // 2: the stand follows the pointer over the plan, in steps of five centimetres.
    const ImVec2 hub = mirror.grip(Plane::plan, GripKind::base, key_light);
    const float px = mirror.plan().px(0.4);
    const Vec2 old = mirror.base("key");
    drag_both(session, mirror, hub, {hub.x - std::round(0.25F * px), hub.y + std::round(px)});
    CHECK(mirror.base("key").x == Approx(old.x - 0.1).margin(0.051));
    CHECK(mirror.base("key").y == Approx(old.y + 0.4).margin(0.051));
    session.saved(file, "the stand at its new place",
                  [&](const std::string& text) { return text == mirror.text(); });
    session.photograph("02-stand-dragged");

    // 3: the arm is pulled out past what the feet carry.
    const std::size_t key = *light_index(mirror.set(), "key");
    const ui::Page plan = mirror.plan();
    const SupportPose& pose = mirror.app.drawn.poses[key];
    const ImVec2 lamp = mirror.grip(Plane::plan, GripKind::body, key_light);
    const ImVec2 tip = plan.at(pose.tip_m), top = plan.at(pose.column_top_m);
    const float out = plan.px(0.75) / std::hypot(tip.x - top.x, tip.y - top.y);
    drag_both(
        session, mirror, lamp,
        {std::round(lamp.x + out * (tip.x - top.x)), std::round(lamp.y + out * (tip.y - top.y))});
    CHECK(mirror.set().lights[key].support.arm->reach_m > 1.25);
    CHECK(verdict_of_key(mirror) == Verdict::unstable);
    session.saved(file, "the long arm",
                  [&](const std::string& text) { return text == mirror.text(); });
    expect_same_verdicts(session, mirror);
    CHECK(mirror.any_danger());
    session.photograph("03-arm-too-long");

    // 4: the button on the finding mends it; a second one may follow.
    int mended = 0;
    for (; mirror.any_danger() && mended < 4; ++mended) {
        const ImVec2 button = mirror.find("mend " + std::to_string(0), mirror.layout().findings);
        mirror.click(button);
        session.hand.click(button);
        expect_same_verdicts(session, mirror);
    }
    CHECK(mended > 0);
    CHECK_FALSE(mirror.any_danger());
    CHECK(verdict_of_key(mirror) != Verdict::unstable);
    session.saved(file, "the remedy",
                  [&](const std::string& text) { return text == mirror.text(); });
    session.photograph("04-mended");

    // 5: undo takes it all back, however often it was saved between.
    for (int i = 0; i < 2 + mended; ++i) session.hand.key("ctrl+z");
    session.saved(file, "the original", [&](const std::string& text) { return text == bytes; });
    mirror.show(original, file);
    expect_same_verdicts(session, mirror);
    session.photograph("05-undone");
    CHECK(session.quit() == 0);
    CHECK(text_of(session.settings_file()).find(file.string()) != std::string::npos);
}
