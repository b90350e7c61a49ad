// Kept states: what they hold, how they are seen, and taking one back.
#include "engine/ui/kept_page.h"
#include "engine/ui/kept_states.h"
#include "engine/ui/state_wishes.h"
#include "sim/set/set_io.h"
#include "tests/engine/ui/window_bench.h"

#include <catch2/catch.hpp>
#include <chrono>
#include <thread>

using namespace keystead;
using namespace keystead::ui;
using testing::example;
using Bench = testing::WindowBench;

namespace {

void hold(Bench& bench, int key, bool down) {
    ImGui::GetIO().KeysDown[key] = down;
    bench.frames(2);
}

void change_ceiling(Bench& bench, const char* metres) {
    REQUIRE_FALSE(bench.app.history.run(SetValue{"room.ceiling_m", metres}));
    bench.frames(1);
}

KeptState reviewed(const Set& set) {
    KeptState state;
    state.set = std::make_shared<const Set>(set);
    state.studio = make_studio(set);
    state.review =
        std::make_shared<const Review>(review_set(*state.studio, {.margins = false}, nullptr));
    return state;
}

} // namespace

TEST_CASE("A state is kept as it is, and later edits leave it alone") {
    Bench bench("harbour-choir-short");
    const std::string before = write_set(bench.app.history.set());
    bench.press('K', true);
    REQUIRE(bench.app.kept.list.size() == 1);
    CHECK(bench.app.kept.list[0].name() == "kept 1");
    CHECK(bench.app.kept.picked == 1);
    CHECK_FALSE(bench.app.history.dirty());
    change_ceiling(bench, "3.3");
    CHECK(write_set(*bench.app.kept.list[0].set) == before);
    bench.press('K', true);
    CHECK(bench.app.kept.list.size() == 2);
    CHECK(bench.app.kept.picked == 2);
}

TEST_CASE("Taking a kept state back is one step that undo takes away") {
    Bench bench("harbour-choir-short");
    const std::string before = write_set(bench.app.history.set());
    bench.press('K', true);
    change_ceiling(bench, "3.3");
    REQUIRE_FALSE(bench.app.history.run(RemoveLight{"key"}));
    bench.frames(1);
    const std::string after = write_set(bench.app.history.set());
    REQUIRE(carry_out_state_wish(bench.app, {Act::take_back, "1"}));
    bench.frames(1);
    CHECK(write_set(bench.app.history.set()) == before);
    CHECK(bench.app.history.undo_label() == "take kept 1 back");
    bench.press('Z', true);
    CHECK(write_set(bench.app.history.set()) == after);
}

TEST_CASE("A held key shows the kept state, and letting go shows the present one") {
    Bench bench("harbour-choir-short");
    hold(bench, 'K', true);
    CHECK(bench.app.kept.compared() == nullptr); // nothing is kept yet
    hold(bench, 'K', false);
    bench.press('K', true);
    CHECK(bench.app.kept.compared() == nullptr);
    hold(bench, 'K', true);
    REQUIRE(bench.app.kept.compared() != nullptr);
    CHECK(bench.app.kept.compared()->number == 1);
    hold(bench, 'K', false);
    CHECK(bench.app.kept.compared() == nullptr);
}

TEST_CASE("The divider between kept and now can be dragged, and Escape takes it away") {
    Bench bench("harbour-choir-short");
    bench.press('K', true);
    bench.app.selection = {Thing::subject, {}};
    CHECK(carry_out_state_wish(bench.app, {Act::split_picture, ""}));
    bench.frames(2);
    REQUIRE(bench.app.kept.compared() != nullptr);
    const Rect picture = bench.app.lens_picture;
    const float x = std::floor(picture.x + 0.5F * picture.w), y = picture.y + 0.3F * picture.h;
    bench.to({x, y});
    bench.table.button(true), bench.frames(2);
    bench.to({picture.x + 0.25F * picture.w, y});
    bench.let_go();
    CHECK(bench.app.kept.divider == Approx(0.25F).margin(0.01));
    // The press was the divider's: the picture below it would have selected the camera.
    CHECK(bench.app.selection == Selection{Thing::subject, {}});
    bench.table.key(ImGuiKey_Escape, true), bench.frames(1);
    bench.table.key(ImGuiKey_Escape, false), bench.frames(1);
    CHECK(bench.app.kept.compared() == nullptr);
}

TEST_CASE("What differs is said in the words of the comparison of two files") {
    const Set now = example("harbour-choir-short");
    const Result<Set> higher =
        keystead::apply(now, SetValue{"lights[key].support.column.height_m", "1.6"});
    REQUIRE(higher);
    const KeptState kept = reviewed(now), other = reviewed(higher.value());
    CHECK(kept_differences(kept, higher.value(), nullptr).empty());
    const auto table = kept_differences(kept, higher.value(), other.review.get());
    const auto changed = std::count_if(table.begin(), table.end(),
                                       [](const Difference& line) { return !line.same(); });
    CHECK(changed > 0);
    const auto same = kept_differences(kept, now, kept.review.get());
    CHECK(std::all_of(same.begin(), same.end(), [](const Difference& d) { return d.same(); }));
    CHECK_FALSE(kept_summary(kept).empty());
}

TEST_CASE("Kept states are forgotten one by one, the oldest when there are many") {
    KeptStates kept;
    for (std::size_t i = 0; i < most_kept_states + 2; ++i) {
        KeptState state;
        state.set = std::make_shared<const Set>();
        keep_state(kept, std::move(state));
    }
    CHECK(kept.list.size() == most_kept_states);
    CHECK(kept.with(1) == nullptr);
    const int last = kept.list.back().number;
    CHECK(kept.picked == last);
    CHECK(picked_after(kept, -1) == last - 1);
    CHECK(picked_after(kept, 1) == last);
    forget_state(kept, last);
    CHECK(kept.picked == last - 1);
    while (!kept.list.empty()) forget_state(kept, kept.list.back().number);
    kept.split = true;
    CHECK(kept.compared() == nullptr);
}

TEST_CASE("The page of kept states works by the pointer") {
    Bench bench("harbour-choir-short");
    bench.press('D', true);
    REQUIRE(bench.app.kept.page_open);
    bench.click(bench.in_panel("keep state"));
    change_ceiling(bench, "3.3");
    bench.click(bench.in_panel("keep state"));
    REQUIRE(bench.app.kept.list.size() == 2);
    bench.click(bench.in_panel("kept 1"));
    CHECK(bench.app.kept.picked == 1);
    bench.click(bench.in_panel("kept/take it back"));
    CHECK(bench.app.history.set().room.ceiling_m == bench.app.kept.list[0].set->room.ceiling_m);
    bench.click(bench.in_panel("kept/forget"));
    CHECK(bench.app.kept.list.size() == 1);
    bench.click(bench.in_panel("close kept"));
    CHECK_FALSE(bench.app.kept.page_open);
}

TEST_CASE("A state that was kept before it was read is read in the background") {
    App app;
    app.workshop = std::make_unique<Workshop>(std::function<void()>{});
    show_set(app, example("harbour-choir-short"), {});
    REQUIRE(carry_out_state_wish(app, {Act::keep_state, ""}));
    CHECK_FALSE(app.kept.list[0].review);
    const auto end = std::chrono::steady_clock::now() + std::chrono::seconds(120);
    while (!app.kept.list[0].review && std::chrono::steady_clock::now() < end) {
        take_results(app);
        Outbox out;
        carry_out(app, out);
        std::this_thread::sleep_for(std::chrono::milliseconds(5));
    }
    REQUIRE(app.kept.list[0].review);
    CHECK(app.kept.list[0].studio);
    CHECK(app.kept.list[0].review->set == app.history.set().name);
}
