// The build seen light by light: a way of looking, never an edit.
#include "engine/ui/build_order.h"
#include "sim/set/set_io.h"
#include "tests/engine/ui/window_bench.h"

#include <catch2/catch.hpp>

using namespace keystead;
using namespace keystead::ui;
using testing::example;
using Bench = testing::WindowBench;

namespace {

constexpr int page_up = 266, page_down = 267;

std::size_t lit(const Set& set) {
    return static_cast<std::size_t>(
        std::count_if(set.lights.begin(), set.lights.end(), [](const Light& l) { return l.on; }));
}

} // namespace

TEST_CASE("Each step has one light more, in the order of the build") {
    const Set set = example("lantern-maker");
    const BuildOrder order = build_order_of(set, nullptr, 7);
    REQUIRE(order.steps.size() == lit(set) + 1);
    CHECK(order.at == 1);
    for (std::size_t i = 0; i < order.steps.size(); ++i) {
        CHECK(lit(order.steps[i].drawn.set) == i);
        CHECK(order.steps[i].words.find("build order " + std::to_string(i) + " of") == 0);
    }
    CHECK(order.steps[1].added == set.lights.front().id);
    CHECK(write_set(order.steps.back().drawn.set) == write_set(set));
    CHECK(order.shown(7) == &order.steps[1]);
    CHECK(order.shown(8) == nullptr);
}

TEST_CASE("A light that is off makes no step, and a dark set has no build") {
    Set set = example("lantern-maker");
    const std::size_t all = lit(set);
    set.lights.front().on = false;
    const BuildOrder order = build_order_of(set, nullptr, 1);
    CHECK(order.steps.size() == all);
    for (const BuildStep& step : order.steps) CHECK_FALSE(step.drawn.set.lights.front().on);
    for (Light& light : set.lights) light.on = false;
    CHECK(build_order_of(set, nullptr, 1).steps.empty());
}

TEST_CASE("The build is stepped through by keys and leaves the document alone") {
    Bench bench("lantern-maker");
    const std::string before = write_set(bench.app.history.set());
    const Selection selected = bench.app.selection;
    bench.press('B', true);
    REQUIRE(bench.app.build_order.shown(bench.app.revision()) != nullptr);
    const auto id = [&](std::size_t i) { return bench.app.history.set().lights[i].id; };
    CHECK(is_light(bench.app.selection, id(0)));
    bench.press(page_down, false);
    CHECK(is_light(bench.app.selection, id(1)));
    bench.press(page_up, false), bench.press(page_up, false), bench.press(page_up, false);
    CHECK(bench.app.build_order.at == 0);
    for (int i = 0; i < 20; ++i) bench.press(page_down, false);
    CHECK(bench.app.build_order.at == bench.app.build_order.steps.size() - 1);
    bench.table.key(ImGuiKey_Escape, true), bench.frames(1);
    bench.table.key(ImGuiKey_Escape, false), bench.frames(1);
    CHECK(bench.app.build_order.steps.empty());
    CHECK(bench.app.selection == selected);
    CHECK(write_set(bench.app.history.set()) == before);
    CHECK_FALSE(bench.app.history.can_undo());
}

TEST_CASE("An edit ends the look at the build") {
    Bench bench("lantern-maker");
    bench.press('B', true);
    REQUIRE(bench.app.build_order.shown(bench.app.revision()) != nullptr);
    REQUIRE_FALSE(bench.app.history.run(SetValue{"room.ceiling_m", "3.4"}));
    bench.frames(1);
    CHECK(bench.app.build_order.steps.empty());
}
