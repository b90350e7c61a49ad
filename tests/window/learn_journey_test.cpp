// A tour of Learn: the chart of patterns, and the key carried round the face by its dot.
#include "engine/ui/chart_drawing.h"
#include "engine/ui/map_lesson.h"
#include "sim/set/set_io.h"
#include "tests/window/twins.h"
#include "tests/window/wait.h"

#include <catch2/catch.hpp>

using namespace keystead;
using namespace keystead::journeys;

namespace {

constexpr int f1 = 290; // GLFW's code

/// The mirror has a chart, if only the rough one that comes first: where things are is the same on
/// both, and the fine one takes many seconds.
void chart(Mirror& mirror) {
    wait_for("the mirror's chart", [&] {
        ui::take_results(mirror.app);
        mirror.frames(1);
        return mirror.app.learn.map != nullptr;
    });
    mirror.app.learn.tutor.reset();
    mirror.frames(2);
}

Angles key_direction(const Mirror& mirror) {
    const std::size_t key = *light_index(mirror.set(), "key");
    return ui::lamp_direction(*mirror.app.studio, mirror.app.drawn.poses[key].emitter_m);
}

} // namespace

TEST_CASE("Learn charts the patterns, and its dot carries the key into another one") {
    Twins twins("learn");
    Session& session = twins.session;
    Mirror& mirror = twins.mirror;
    const std::filesystem::path file = session.sets() / "rehearsal.json";
    REQUIRE_FALSE(save_set(rehearsal(), file));
    session.start({file.string()});
    session.wait_for_title("Rehearsal");
    mirror.app.learn.tutor = ui::make_tutor({});
    mirror.show(set_in(file), file);
    mirror.catch_up(true);

    // 14: F7, and the chart stands where the elevation was.
    mirror.press(f1 + 6, false);
    session.hand.key("F7");
    REQUIRE(mirror.app.settings.learn);
    chart(mirror);
    twins.away();
    const ui::Rect view = mirror.layout().elevation;
    const ui::Rect area = ui::chart_rect(view, mirror.table.theme);
    twins.expect_same({view.x, std::ceil(area.bottom()) + 2.0F, std::floor(view.w), 18.0F},
                      "the axis below the chart of patterns");
    session.photograph("14-learn", 2.0);

    const Angles was = key_direction(mirror);
    const PatternMap& map = mirror.app.learn.map->map;
    const auto rounded = [](const ImVec2& p) { return ImVec2{std::round(p.x), std::round(p.y)}; };
    const ImVec2 dot = rounded(ui::chart_point(area, map, was)),
                 on = rounded(
                     ui::chart_point(area, map, {was.azimuth_deg + 14.0, was.elevation_deg - 4.0}));
    twins.drag(dot, on);
    const Angles is = key_direction(mirror);
    CHECK(is.azimuth_deg == Approx(was.azimuth_deg + 14.0).margin(1.6));
    CHECK(is.elevation_deg == Approx(was.elevation_deg - 4.0).margin(1.6));
    twins.saved(file, "the key at its new place round the face");
    twins.expect_same_verdicts();
    session.photograph("14-learn-key-carried");
    CHECK(session.quit() == 0);
}
