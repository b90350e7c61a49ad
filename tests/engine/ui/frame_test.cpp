// The whole window without a window: the pointer and the keyboard against the document.
#include "tests/engine/ui/window_bench.h"

using namespace keystead;
using namespace keystead::ui;
using testing::example;
using testing::light_of;
using Bench = testing::WindowBench;

TEST_CASE("Dragging a stand over the plan is one undo step, and undo brings it back") {
    Bench bench("harbour-choir-short");
    const Vec2 old = bench.base("key");
    const Page page = bench.plan();
    const std::size_t key = *light_index(bench.app.history.set(), "key");
    const ImVec2 from = page.at(bench.app.drawn.poses[key].hub_m);
    bench.drag(from, {from.x - page.px(0.5), from.y + page.px(0.25)});
    CHECK(bench.app.dragging());
    CHECK(bench.base("key").x == Approx(old.x - 0.5).margin(0.06));
    CHECK(bench.base("key").y == Approx(old.y + 0.25).margin(0.06));
    bench.let_go();
    CHECK_FALSE(bench.app.dragging());
    CHECK(bench.app.history.dirty());
    bench.press('Z', true);
    CHECK(bench.base("key") == old);
    CHECK_FALSE(bench.app.history.can_undo());
    bench.press('Y', true);
    CHECK(bench.base("key").x == Approx(old.x - 0.5).margin(0.06));
}

TEST_CASE("Escape takes the drag in hand back and nothing is left to undo") {
    Bench bench("harbour-choir-short");
    const Vec2 old = bench.base("key");
    const Page page = bench.plan();
    const ImVec2 from =
        page.at(bench.app.drawn.poses[*light_index(bench.app.history.set(), "key")].hub_m);
    bench.drag(from, {from.x - 60.0F, from.y});
    bench.table.key(ImGuiKey_Escape, true), bench.frames(2);
    bench.table.key(ImGuiKey_Escape, false), bench.frames(1);
    CHECK(bench.base("key") == old);
    bench.to({from.x - 90.0F, from.y});
    CHECK(bench.base("key") == old);
    bench.let_go();
    CHECK_FALSE(bench.app.history.can_undo());
}

TEST_CASE("Every light can be selected in the plan, and the selection is shared") {
    Bench bench("lantern-maker");
    for (const Light& light : bench.app.history.set().lights) {
        const std::size_t i = *light_index(bench.app.history.set(), light.id);
        bench.app.selection = {Thing::light, light.id};
        bench.frames(1);
        bench.to(bench.plan().at(bench.app.drawn.poses[i].tip_m));
        bench.table.button(true), bench.frames(2);
        bench.let_go();
        INFO(light.id);
        CHECK(bench.app.selection == Selection{Thing::light, light.id});
    }
    CHECK_FALSE(bench.app.history.can_undo());
}

TEST_CASE("A column dragged in the elevation moves the lamp and its verdict at once") {
    Bench bench("harbour-choir-short");
    const std::size_t key = *light_index(bench.app.history.set(), "key");
    const double margin = bench.app.drawn.stability[key].tip_angle_deg,
                 height = bench.app.drawn.poses[key].column_top_m.y;
    const Page page = bench.elevation();
    const Vec3 hub = bench.app.drawn.poses[key].hub_m,
               top = bench.app.drawn.poses[key].column_top_m;
    const ImVec2 from = page.at(0.5 * (hub + top));
    bench.drag(from, {from.x, from.y + page.px(0.8)});
    CHECK(bench.app.drawn.poses[key].column_top_m.y == Approx(height - 0.8).margin(0.06));
    CHECK(bench.app.drawn.stability[key].tip_angle_deg > margin);
    bench.let_go();
}

TEST_CASE("New asks about unsaved changes first") {
    Bench bench("harbour-choir-short");
    REQUIRE_FALSE(bench.app.history.run(SetValue{"room.ceiling_m", "3.3"}));
    bench.press('N', true);
    REQUIRE(bench.app.asked);
    CHECK(bench.app.history.set().room.ceiling_m == Approx(3.3));
    bench.table.key(ImGuiKey_Escape, true), bench.frames(2);
    bench.table.key(ImGuiKey_Escape, false), bench.frames(1);
    CHECK_FALSE(bench.app.asked);
    CHECK(bench.app.history.set().room.ceiling_m == Approx(3.3));
}

TEST_CASE("A frame can be built at any size with everything in it") {
    for (const auto& size : {std::pair{200.0F, 150.0F}, std::pair{800.0F, 500.0F},
                             std::pair{1280.0F, 720.0F}, std::pair{3840.0F, 2160.0F}})
        for (const char* set : {"harbour-choir-short", "overreach", "lantern-maker"}) {
            Bench bench(set, size.first, size.second);
            for (const Thing thing :
                 {Thing::room, Thing::subject, Thing::camera, Thing::background}) {
                bench.app.selection = {thing, {}};
                bench.frames(1);
            }
            for (const Panel& panel : bench.app.history.set().panels) {
                bench.app.selection = {Thing::panel, panel.id};
                bench.frames(1);
            }
            CHECK(ImGui::GetDrawData()->TotalVtxCount > 0);
        }
}

TEST_CASE("Results made from an older set than the one shown are dropped") {
    App app;
    show_set(app, example("overreach"), {});
    const std::uint64_t first = app.revision();
    show_set(app, example("harbour-choir-short"), {});
    CHECK(app.revision() > first);
    CHECK(app.studio_revision > first);
    CHECK(app.review_revision > first);
}
