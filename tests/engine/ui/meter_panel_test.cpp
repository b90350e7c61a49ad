// The meter's section of the panel: every change is a command; lists are shown before they count.
#include "engine/ui/meter_section.h"
#include "sim/light/stops.h"
#include "sim/meter/falloff_table.h"
#include "tests/engine/ui/panel_bench.h"
#include "tests/engine/ui/sets.h"

using namespace keystead;
using namespace keystead::ui;
using testing::Bench;
using testing::changed;
using testing::example;
using testing::light_of;

namespace {

constexpr float head = 32.0F, row = 26.0F;

struct Meter {
    Bench bench;
    Set set = example("harbour-choir-short");

    void click(float x, float y) {
        const Drawn drawn = draw_set(set, nullptr);
        bench.edits.clear();
        bench.click(x, y, [&](Flow& flow) {
            const Shown shown{drawn, nullptr, {}, ShownAs::picture, false, nullptr, {}};
            meter_section(flow, shown, bench.open);
        });
        for (const auto& edit : bench.edits) set = changed(set, edit.command);
    }
};

} // namespace

TEST_CASE("A meter point is added, turned, changed and taken away by commands", "[meter]") {
    Meter meter;
    const float add_y = head + row + 0.5F * row;
    meter.click(60.0F, add_y);
    REQUIRE(meter.bench.edits.size() == 1);
    CHECK(label_of(meter.bench.edits[0].command) == "add a meter point");
    REQUIRE(meter.set.meter_points.size() == 1);
    CHECK(meter.bench.open.meter_desk.point == "point 1");

    meter.set = changed(meter.set, set_word(meter_path("point 1", "toward"), "key"));
    CHECK(meter.set.meter_points[0].toward == "key");
    CHECK(label_of(set_word(meter_path("point 1", "toward"), "key")) ==
          "meter point point 1 toward");

    // Below the two links: three rows of place, one of aim, then the receptor.
    CHECK(meter.set.meter_points[0].receptor == ReceptorKind::dome);
    meter.click(370.0F, head + 6.0F * row + 0.5F * row);
    CHECK(meter.set.meter_points[0].receptor == ReceptorKind::flat);

    meter.click(370.0F, add_y);
    CHECK(meter.set.meter_points.empty());
    CHECK(meter.bench.open.meter_desk.point == "face");
}

TEST_CASE("A pasted list is shown first, then taken in as one step", "[meter]") {
    Meter meter;
    const float paste_y = head + 2.0F * row + 4.0F + 0.5F * row;
    ImGui::SetClipboardText("key f/8 + 3/10\nfill 4.0 2 # by hand\n");
    meter.click(60.0F, paste_y);
    CHECK(meter.bench.edits.empty());
    CHECK_FALSE(meter.bench.open.meter_desk.pasted.empty());
    // Two lines understood, then the links.
    meter.click(60.0F, paste_y + 2.0F * row);
    REQUIRE(meter.bench.edits.size() == 1);
    CHECK(label_of(meter.bench.edits[0].command) == "measured readings");
    REQUIRE(meter.set.measured.size() == 2);
    CHECK(meter.set.measured[0].f_number == Approx(f_number_plus_stops(8.0, 0.3)).epsilon(1e-3));
    CHECK(meter.bench.open.meter_desk.pasted.empty());
}

TEST_CASE("A pasted list with a wrong line changes nothing and can be left", "[meter]") {
    Meter meter;
    const float paste_y = head + 2.0F * row + 4.0F + 0.5F * row;
    ImGui::SetClipboardText("nobody f/8\n");
    meter.click(60.0F, paste_y);
    const Set before = meter.set;
    CHECK_FALSE(meter.bench.open.meter_desk.pasted.empty());
    for (float y = paste_y; y < paste_y + 200.0F; y += 12.0F) meter.click(60.0F, y);
    CHECK(meter.set.measured.empty());
    CHECK(write_set(meter.set) == write_set(before));
}

TEST_CASE("Heads calibrated by measured readings give what was measured", "[meter]") {
    const Set set = example("harbour-choir-short");
    MeasuredTable measured;
    measured.corrections = {{"key", 1, 0.7, 0.0}};
    const Set now = changed(set, calibrate_heads(set, measured));
    const auto at_1_m = [](const Set& of) {
        return falloff_table(of, light_of(of, "key"), 1.0, {1.0}).rows[0].f_number;
    };
    CHECK(stops_between_f_numbers(at_1_m(set), at_1_m(now)) == Approx(0.7).margin(1e-3));
    CHECK_FALSE(light_of(now, "hair").head.calibration);
}
