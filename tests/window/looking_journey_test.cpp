// Typing, keeping and comparing, the build light by light, a picture into a file, everything at
// twice its size: one run of the program.
#include "sim/set/set_io.h"
#include "tests/window/twins.h"
#include "tests/window/wait.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

using namespace keystead;
using namespace keystead::journeys;
using ui::GripKind;
using ui::Plane;
using ui::Selection;
using ui::Thing;

namespace {

/// Width and height of a PNG, from its header chunk (ISO/IEC 15948, 11.2.2).
std::pair<int, int> size_of_png(const std::filesystem::path& file) {
    const std::string bytes = text_of(file);
    if (bytes.size() < 24 || bytes.compare(1, 3, "PNG") != 0) return {0, 0};
    const auto number = [&](std::size_t at) {
        int value = 0;
        for (std::size_t i = 0; i < 4; ++i)
            value = value << 8 | static_cast<unsigned char>(bytes[at + i]);
        return value;
    };
    return {number(16), number(20)};
}

ui::Rect left_of(const ui::Rect& r) {
    return {r.x + 4.0F, r.y + 40.0F, std::floor(0.5F * r.w) - 20.0F, std::floor(r.h) - 80.0F};
}
ui::Rect right_of(const ui::Rect& r) {
    ui::Rect half = left_of(r);
    half.x = std::ceil(r.x + 0.5F * r.w) + 16.0F;
    return half;
}

/// A click on the light's cell in the strip, then on the switch in its panel.
void switch_key(Twins& twins) {
    twins.click(twins.mirror.find("cell/key", twins.mirror.layout().strip, 200.0F));
    twins.click(twins.mirror.in_panel("switch"));
    twins.away();
}

} // namespace

TEST_CASE("A set is measured, kept, compared, looked at and saved as a picture") {
    Twins twins("looking");
    Session& session = twins.session;
    Mirror& mirror = twins.mirror;
    const std::filesystem::path file = session.sets() / "rehearsal.json";
    REQUIRE_FALSE(save_set(rehearsal(), file));
    session.start({file.string()});
    session.wait_for_title("Rehearsal");
    mirror.show(set_in(file), file);

    // 6: feet and inches in the field of the sitter's stature. 68 inches of 2.54 cm each.
    twins.expect_same_verdicts();
    twins.click(mirror.grip(Plane::plan, GripKind::head, {Thing::subject, {}}));
    CHECK(mirror.app.selection == Selection{Thing::subject, {}});
    twins.open_field("subject.stature_m");
    twins.write("5'8\"");
    twins.expect_same(mirror.layout().panel, "what it comes to in metres");
    session.photograph("06-feet-and-inches", 0.0);
    twins.key(ImGuiKey_Enter);
    CHECK(mirror.set().subject.stature_m == Approx(68 * 0.0254).epsilon(1e-12));
    twins.saved(file, "the stature");
    CHECK(set_in(file).subject.stature_m == Approx(1.7272).epsilon(1e-12));

    // 7: two states beside each other, and what differs in words.
    mirror.catch_up(true);
    twins.away();
    twins.wait_for_level("the lit picture", [](double level) { return level > 20.0; });
    twins.control('K');
    switch_key(twins);
    CHECK_FALSE(mirror.set().lights.front().on);
    mirror.catch_up(true);
    twins.control('K');
    REQUIRE(mirror.app.kept.list.size() == 2);
    twins.control('D');
    twins.click(mirror.in_panel("kept 1"));
    twins.control('K', true);
    twins.away();
    CHECK(mirror.app.kept.compared() != nullptr);
    const ui::Rect picture = mirror.app.lens_picture;
    wait_for("the lit state beside the dark one", [&] {
        return mean_level(session.screen.seen(left_of(picture))) >
               3.0 * mean_level(session.screen.seen(right_of(picture)));
    });
    // Kept states are read once more in the background, with how far each pattern holds.
    wait_for("the mirror's kept states", [&] {
        ui::take_results(mirror.app);
        mirror.frames(1);
        return !kept_differences(mirror.app.kept.list[0], mirror.set(), &*mirror.app.review)
                    .empty();
    });
    twins.expect_same(mirror.layout().panel, "the page of kept states");
    session.photograph("07-kept-beside-now");
    twins.control('K', true), twins.control('D');

    // 8: light by light; a way of looking, so the file stays as it is.
    twins.undo();
    CHECK(mirror.set().lights.front().on);
    twins.saved(file, "the key on again");
    const std::string before = text_of(file);
    twins.control('B');
    twins.key(ImGuiKey_PageUp);
    const double none = twins.wait_for_level("no light", [](double level) { return level < 2.0; });
    twins.key(ImGuiKey_PageDown);
    const double one =
        twins.wait_for_level("the key alone", [&](double level) { return level > none + 15.0; });
    session.photograph("08-build-order");
    twins.key(ImGuiKey_PageDown);
    CHECK(mirror.app.build_order.at == 2);
    twins.wait_for_level("key and rim", [&](double level) { return level > one + 0.3; });
    twins.key(ImGuiKey_Escape);
    CHECK(text_of(file) == before);

    // 12: a picture of the size that was asked for.
    const std::filesystem::path picture_file = session.sets() / "small.png";
    const ui::Rect middle{340, 180, 600, 360};
    twins.control('P');
    twins.click(mirror.find("##picture width", middle, 12.0F));
    twins.write("192");
    twins.click(mirror.find("picture caption", middle));
    twins.away();
    twins.expect_same({420, 240, 440, 240}, "the sheet that asks how");
    session.photograph("12-save-a-picture", 0.5);
    twins.click(mirror.find("picture file", middle, 12.0F));
    twins.away();
    twins.expect_same({362, 132, 556, 370}, "the list of folders");
    twins.name_file(picture_file.string());
    wait_for("the picture", [&] { return std::filesystem::exists(picture_file); });
    CHECK(size_of_png(picture_file) ==
          std::pair(192, ui::picture_height(mirror.set().camera, 192)));

    // 11: everything twice as large, and still where the pointer says it is.
    twins.click(mirror.find("menu View", mirror.layout().menu, 12.0F));
    // The middle of the slider. Finding it opened the list below it in the mirror; the entry above
    // closes that again.
    const ImVec2 end = mirror.find("size", {60, 380, 460, 22}, 2.0F);
    mirror.to({end.x, end.y - 28.0F}), mirror.frames(4);
    float begin = end.x;
    while (mirror.hovers_at("size", {begin - 1.0F, end.y})) begin -= 1.0F;
    CHECK(begin < end.x - 100.0F);
    twins.click({std::round(0.5F * (begin + end.x)), end.y});
    REQUIRE(mirror.app.settings.size_percent == 200);
    twins.key(ImGuiKey_Escape);
    mirror.set_size(200);
    twins.away();
    twins.expect_same(mirror.layout().panel, "the panel at 200 %");
    twins.click(mirror.find("cell/rim", mirror.layout().strip, 100.0F));
    twins.click(mirror.in_panel("switch"));
    CHECK_FALSE(mirror.set().lights.back().on);
    twins.saved(file, "the rim switched off at 200 %");
    twins.away();
    session.photograph("11-at-200-percent");
    CHECK(session.quit() == 0);
    CHECK(nlohmann::json::parse(text_of(session.settings_file()))["size_percent"] == 200);
}
