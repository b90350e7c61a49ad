// The size of type and marks, and the hints of the first run.
#include "engine/ui/desk.h"
#include "engine/ui/size_slider.h"
#include "tests/engine/ui/window_bench.h"

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <unistd.h>

using namespace keystead;
using namespace keystead::ui;
using Bench = testing::WindowBench;
namespace fs = std::filesystem;

TEST_CASE("Sizes go in steps between one and three times") {
    CHECK(size_after(100, 1) == 125);
    CHECK(size_after(100, -1) == 100);
    CHECK(size_after(110, 1) == 125);
    CHECK(size_after(110, -1) == 100);
    CHECK(size_after(300, 1) == 300);
    CHECK(size_at(0.0F) == 100);
    CHECK(size_at(1.0F) == 300);
    CHECK(size_at(-3.0F) == 100);
    CHECK(size_at(0.5F) == 200);
    for (int i = 0; i <= 100; ++i) CHECK(size_at(0.01F * static_cast<float>(i)) % 5 == 0);
}

TEST_CASE("Keys make everything larger and smaller, and it is remembered") {
    Bench bench("harbour-choir-short");
    bench.press('=', true);
    CHECK(bench.app.settings.size_percent == 125);
    bench.press('-', true);
    CHECK(bench.app.settings.size_percent == 100);
    bench.press('=', true), bench.press('=', true), bench.press('0', true);
    CHECK(bench.app.settings.size_percent == 100);
    const fs::path file =
        fs::temp_directory_path() / ("keystead-size-" + std::to_string(getpid()) + ".json");
    bench.app.settings.size_percent = 150;
    save_settings(bench.app.settings, file);
    CHECK(load_settings(file).size_percent == 150);
    std::ofstream(file) << "{\"size_percent\": 4000, \"hints_done\": -1}";
    CHECK(load_settings(file).size_percent == 300);
    CHECK(load_settings(file).hints_done == all_hints);
    fs::remove(file);
}

TEST_CASE("Hints are there on the first run alone, and each goes once it was done") {
    CHECK(load_settings("/nowhere/window.json").hints_done == 0);
    CHECK(Settings{}.hints_done == all_hints);
    CHECK(hint_lines(0).size() == 3);
    CHECK(hint_lines(all_hints).empty());
    CHECK(hints_done({0, true, false, false}) == hint_drag);
    CHECK(hints_done({hint_drag, false, true, false}) == (hint_drag | hint_number));
    CHECK(hints_done({hint_drag | hint_number, false, false, true}) == all_hints);
    CHECK(hints_done({hint_keep, false, false, false}) == hint_keep);
}

TEST_CASE("A stand dragged over the plan, and a kept state seen again, do what the hints say") {
    Bench bench("harbour-choir-short");
    bench.app.settings.hints_done = 0;
    bench.frames(2);
    const Page page = bench.plan();
    const std::size_t key = *light_index(bench.app.history.set(), "key");
    const ImVec2 from = page.at(bench.app.drawn.poses[key].hub_m);
    bench.drag(from, {from.x - page.px(0.3), from.y});
    CHECK((bench.app.settings.hints_done & hint_drag) != 0);
    bench.let_go();
    CHECK((bench.app.settings.hints_done & hint_keep) == 0);
    bench.press('K', true);
    ImGui::GetIO().KeysDown['K'] = true, bench.frames(3);
    ImGui::GetIO().KeysDown['K'] = false, bench.frames(2);
    CHECK((bench.app.settings.hints_done & hint_keep) != 0);
}

TEST_CASE("The hints can be left out by their own words") {
    Bench bench("harbour-choir-short");
    bench.app.settings.hints_done = 0;
    bench.frames(2);
    const Pen pen{nullptr, &bench.table.theme};
    const Rect card = hints_rect(pen, bench.layout().plan, 0);
    REQUIRE(card.h > 0.0F);
    CHECK(card.bottom() <= bench.layout().plan.bottom());
    const Selection selected = bench.app.selection;
    bench.click({card.x + 40.0F, card.y + 20.0F});
    CHECK(bench.app.selection == selected);
    CHECK(bench.app.settings.hints_done == 0);
    bench.click({card.right() - 20.0F, card.bottom() - 16.0F});
    CHECK(bench.app.settings.hints_done == all_hints);
    CHECK(hints_rect(pen, bench.layout().plan, all_hints).h == 0.0F);
}

TEST_CASE("A word too long for its line is broken, at a folder where that can be") {
    testing::Table table;
    const ImFont* font = table.theme.font.body;
    const std::string path = "/home/somebody/pictures/sets/of/last/autumn/rehearsal-with-ten.json:";
    const std::vector<std::string> lines = ui::wrapped(font, path + " is not there", 160.0F);
    std::string together;
    for (const std::string& line : lines) {
        CHECK(ui::width_of(font, line) <= 160.0F);
        together += line;
    }
    CHECK(lines.size() > 2);
    CHECK(lines.front().back() == '/');
    CHECK(together.find(path) == 0);
}

TEST_CASE("Trouble too long for the menu's line has a card, and a click puts it away") {
    testing::WindowBench bench("overreach");
    bench.app.notice = "saved", bench.app.notice_is_bad = false;
    bench.frames(1);
    bench.click({900, 60});
    CHECK(bench.app.notice == "saved");
    bench.app.notice = std::string(90, 'x') + ": lights[0].support.arm.reach_m: 9 is too long";
    bench.app.notice_is_bad = true;
    bench.frames(2);
    const Selection before = bench.app.selection;
    bench.click({900, 60});
    CHECK(bench.app.notice.empty());
    CHECK(bench.app.selection == before);
}
