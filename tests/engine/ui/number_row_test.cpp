#include "engine/ui/widgets.h"
#include "tests/engine/ui/desk.h"

#include <catch2/catch.hpp>
#include <string>
#include <variant>

using namespace keystead;
using namespace keystead::ui;
using testing::Table;

namespace {

/// A single row on a panel 300 px wide; the value lives here as it would in the document.
struct Bench {
    Table table;
    RowMemory rows;
    Outbox out;
    double value = 1.90;
    double min = 0.6, max = 2.6;
    bool dropped = false, cancelled = false;
    double before_drag = 1.90;

    void frame() {
        out = {};
        table.frame([&] {
            Flow flow{
                {ImGui::GetWindowDrawList(), &table.theme}, rows, out, 20.0F, 320.0F, 40.0F, false};
            number_row(
                flow,
                {"column", "height", value, {Dimension::length, "m", min, max, 2, {}}, 0.01, {}},
                [](double v) {
                    return SetValue{"height", std::to_string(v)};
                });
        });
        for (const Edit& edit : out.edits) {
            dropped = dropped || edit.phase == EditPhase::drop;
            if (edit.phase == EditPhase::cancel) cancelled = true, value = before_drag;
            if (const auto* set = std::get_if<SetValue>(&edit.command);
                set != nullptr && !set->value.empty())
                value = std::stod(set->value);
        }
    }
    void frames(int count) {
        for (int i = 0; i < count; ++i) frame();
    }
    void over_value() { table.point(270.0F, 53.0F), frames(2); }
    void click() {
        over_value();
        table.button(true), frames(2);
        table.button(false), frames(3);
    }
    void enter(const char* text) {
        click();
        table.type(text), frames(2);
        table.key(ImGuiKey_Enter, true), frames(2);
        table.key(ImGuiKey_Enter, false), frames(2);
    }
};

} // namespace

TEST_CASE("Dragging a number sideways changes it by its step and drops once") {
    Bench bench;
    bench.over_value();
    bench.table.button(true), bench.frames(2);
    bench.table.point(310.0F, 53.0F), bench.frames(2);
    CHECK(bench.value == Approx(2.30));
    CHECK_FALSE(bench.dropped);
    bench.table.button(false), bench.frames(2);
    CHECK(bench.dropped);
    CHECK(bench.value == Approx(2.30));
}

TEST_CASE("A drag stops at the limit") {
    Bench bench;
    bench.over_value();
    bench.table.button(true), bench.frames(2);
    bench.table.point(600.0F, 53.0F), bench.frames(2);
    CHECK(bench.value == Approx(2.60));
    bench.table.point(-400.0F, 53.0F), bench.frames(2);
    CHECK(bench.value == Approx(0.60));
}

TEST_CASE("Escape during a drag brings the old value back and ends the drag") {
    Bench bench;
    bench.over_value();
    bench.table.button(true), bench.frames(2);
    bench.table.point(310.0F, 53.0F), bench.frames(2);
    bench.table.key(ImGuiKey_Escape, true), bench.frames(2);
    CHECK(bench.cancelled);
    CHECK(bench.value == Approx(1.90));
    bench.table.key(ImGuiKey_Escape, false);
    bench.table.point(330.0F, 53.0F), bench.frames(2);
    CHECK(bench.value == Approx(1.90));
    bench.table.button(false), bench.frames(2);
    CHECK_FALSE(bench.dropped);
}

TEST_CASE("A click opens the field and Enter keeps what was typed") {
    Bench bench;
    bench.enter("6 ft 3 in + 4 cm");
    CHECK(bench.value == Approx(6 * 0.3048 + 3 * 0.0254 + 0.04));
    CHECK(bench.rows.editing == 0);
}

TEST_CASE("Escape in the field keeps the old value") {
    Bench bench;
    bench.click();
    CHECK(bench.rows.editing != 0);
    bench.table.type("2.2"), bench.frames(2);
    bench.table.key(ImGuiKey_Escape, true), bench.frames(2);
    CHECK(bench.value == Approx(1.90));
    CHECK(bench.rows.editing == 0);
}

TEST_CASE("What is no length, or beyond the limits, is not kept") {
    Bench bench;
    bench.enter("6 kg");
    CHECK(bench.value == Approx(1.90));
    bench.table.away(), bench.frames(3);
    bench.enter("9 m");
    CHECK(bench.value == Approx(1.90));
}
