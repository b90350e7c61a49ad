#include "engine/edit/role_start.h"
#include "engine/ui/catalogue_value.h"
#include "engine/ui/set_commands.h"
#include "tests/engine/ui/window_bench.h"

#include <filesystem>
#include <fstream>

using namespace keystead;
using namespace keystead::ui;
using testing::example;
using testing::light_of;
using testing::WindowBench;

namespace {

void wish(WindowBench& bench, Act act, const std::string& text = {}) {
    Outbox out;
    out.wish(act, text);
    carry_out(bench.app, out);
    bench.frames(2);
}

/// GLFW's codes, as the window's keys come.
constexpr int right_key = 262, page_up_key = 266;

void tap(WindowBench& bench, int key, bool shift = false) {
    ImGui::GetIO().KeyShift = shift;
    bench.press(key, false);
    ImGui::GetIO().KeyShift = false;
}

} // namespace

TEST_CASE("Five clicks in the strip put five lights into an empty set, each picked as it comes") {
    WindowBench bench("overreach");
    show_set(bench.app, Set{}, {});
    for (const char* role : starting_roles()) {
        wish(bench, Act::add_light, role);
        CHECK(bench.app.selection.thing == Thing::light);
        CHECK(light_of(bench.app.history.set(), bench.app.selection.id).role == role);
    }
    CHECK(bench.app.history.set().lights.size() == 5);
    wish(bench, Act::undo);
    CHECK(bench.app.history.set().lights.size() == 4);
}

TEST_CASE("Keys pick a light and nudge it, one step of the undo list each") {
    WindowBench bench("harbour-choir-short");
    tap(bench, '2');
    REQUIRE(bench.app.selection.id == "fill");
    const Vec2 before = bench.base("fill");
    tap(bench, right_key);
    CHECK(bench.base("fill").x == Approx(before.x + 0.05));
    tap(bench, right_key, true);
    CHECK(bench.base("fill").x == Approx(before.x + 0.06));
    const double height = light_of(bench.app.history.set(), "fill").support.column.height_m;
    tap(bench, page_up_key);
    CHECK(light_of(bench.app.history.set(), "fill").support.column.height_m ==
          Approx(height + 0.05));
    const double below = light_of(bench.app.history.set(), "fill").head.power_stops_below;
    tap(bench, '.');
    CHECK(light_of(bench.app.history.set(), "fill").head.power_stops_below == Approx(below - 0.1));
    for (int i = 0; i < 4; ++i) bench.press('Z', true);
    CHECK(bench.base("fill") == before);
    CHECK_FALSE(bench.app.history.can_undo());
}

TEST_CASE("The catalogue's value is known for what a part is, not for where it stands") {
    Set set = example("harbour-choir-short");
    const double usual = light_of(set, "key").head.energy_ws;
    set.lights[0].head.energy_ws = 123.0;
    CHECK(catalogue_number(set, "lights[key].head.energy_ws") == Approx(usual));
    CHECK_FALSE(catalogue_number(set, "lights[key].support.base.turn_deg"));
    CHECK_FALSE(catalogue_number(set, "lights[key].head.power_stops_below"));
    CHECK_FALSE(catalogue_number(set, "camera.iso"));
    CHECK_FALSE(catalogue_number(set, "lights[nobody].head.energy_ws"));
    set.lights[0].head.from.clear();
    CHECK_FALSE(catalogue_number(set, "lights[key].head.energy_ws"));
}

TEST_CASE("A sitter dragged over the plan moves on the page, and the walls do not") {
    WindowBench bench("harbour-choir-short");
    bench.app.selection = {Thing::subject, {}};
    bench.frames(2);
    const Page before = bench.plan();
    const Room room = bench.app.history.set().room;
    const ImVec2 wall = before.at(Vec2(-room.left_of_subject_m, -room.behind_subject_m));
    const ImVec2 handle = before.at(sitter_handle_m(bench.app.history.set()));
    bench.drag(handle, {handle.x + 30.0F, handle.y + 20.0F});
    REQUIRE(bench.app.dragging());
    bench.frames(2);
    const Room now = bench.app.history.set().room;
    CHECK(now.left_of_subject_m > room.left_of_subject_m + 0.1);
    const ImVec2 wall_now = bench.plan().at(Vec2(-now.left_of_subject_m, -now.behind_subject_m));
    CHECK(std::abs(wall_now.x - wall.x) <= 1.5F);
    CHECK(std::abs(wall_now.y - wall.y) <= 1.5F);
    bench.let_go();
    bench.press('Z', true);
    CHECK(bench.app.history.set().room.left_of_subject_m == room.left_of_subject_m);
}

TEST_CASE("A measured distribution shapes the picked light; a bad file says what is wrong") {
    WindowBench bench("harbour-choir-short");
    bench.app.selection = {Thing::light, "key"};
    const auto folder = std::filesystem::temp_directory_path();
    const auto good = folder / "by-hand.ies", bad = folder / "by-hand-bad.ies";
    std::ofstream(good) << "IESNA:LM-63-2002\nTILT=NONE\n1 1000 1 3 1 1 2 0 0 0\n1 1 100\n"
                           "0 45 90\n0\n1000 700 0\n";
    std::ofstream(bad) << "IESNA:LM-63-2002\nTILT=NONE\n1 1000 1 3 1\n";
    wish(bench, Act::read_measured, bad.string());
    CHECK(bench.app.notice_is_bad);
    CHECK_FALSE(light_of(bench.app.history.set(), "key").modifier.photometric);
    wish(bench, Act::read_measured, good.string());
    INFO(bench.app.notice);
    CHECK_FALSE(bench.app.notice_is_bad);
    REQUIRE(light_of(bench.app.history.set(), "key").modifier.photometric);
    bench.app.selection = {Thing::camera, {}};
    wish(bench, Act::read_measured, good.string());
    CHECK(bench.app.notice.find("pick the light first") == 0);
}

TEST_CASE("A kept state can be given a name") {
    WindowBench bench("harbour-choir-short");
    wish(bench, Act::keep_state);
    CHECK(bench.app.kept.list.back().name() == "kept 1");
    wish(bench, Act::name_kept, "before the rim");
    CHECK(bench.app.kept.list.back().name() == "before the rim");
}
