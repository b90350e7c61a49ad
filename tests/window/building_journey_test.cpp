// From an empty set to four lights, by pointer and keyboard alone, and how long a hand needs.
#include "sim/set/set_io.h"
#include "tests/window/twins.h"
#include "tests/window/wait.h"

#include <algorithm>
#include <catch2/catch.hpp>

using namespace keystead;
using namespace keystead::journeys;
using ui::GripKind;
using ui::Plane;
using ui::Thing;

namespace {

// Times of the keystroke-level model (Card, Moran and Newell, Communications of the ACM 23, 1980;
// from memory): pointing, a button down and up, a key of an average typist, a hand going from
// pointer to keys, and making one's mind up.
constexpr double point_s = 1.1, button_s = 0.2, key_s = 0.28, home_s = 0.4, think_s = 1.35;

/// A hand that counts.
struct Counted {
    Twins& twins;
    double needed_s = 0.0;

    void click(const ImVec2& p) {
        needed_s += think_s + point_s + button_s;
        twins.click(p);
    }
    void drag(const ImVec2& from, const ImVec2& on) {
        needed_s += think_s + 2.0 * point_s + button_s;
        twins.drag(from, on);
    }
    void keys(std::size_t count) {
        needed_s += 2.0 * home_s + think_s + key_s * static_cast<double>(count);
    }
};

} // namespace

TEST_CASE("An empty set gets key, fill, rim and background light in less than two minutes") {
    Twins twins("building");
    Session& session = twins.session;
    Mirror& mirror = twins.mirror;
    Counted hand{twins};
    session.start({});
    session.wait_for_title("new set");
    Set empty;
    empty.name = "new set";
    mirror.show(empty, {});

    // 13: the first by its button in the strip, the others by its list, the last by the menu.
    hand.click(mirror.find("put up key", mirror.layout().strip, 12.0F));
    for (const char* role : {"fill", "rim light"}) {
        hand.click(mirror.find("another light", mirror.layout().strip, 16.0F));
        hand.click(mirror.find(role, {300, 420, 900, 280}, 24.0F));
    }
    hand.needed_s += 2.0 * (think_s + point_s + button_s);
    twins.click(mirror.find("menu Edit", mirror.layout().menu, 12.0F));
    twins.click(mirror.find("Add a light", {60, 34, 300, 300}, 60.0F));
    hand.click(mirror.find("background light", {200, 34, 500, 400}, 30.0F));
    REQUIRE(mirror.set().lights.size() == 4);

    // The key on another stand of the catalogue, further round and higher.
    hand.click(mirror.find("cell/key", mirror.layout().strip, 100.0F));
    hand.needed_s += think_s + point_s + button_s;
    twins.choose("stand", "roller stand, 3.3 m");
    const ImVec2 base = mirror.grip(Plane::plan, GripKind::base, {Thing::light, "key"});
    hand.drag(base, {base.x + 24.0F, base.y + 10.0F});
    twins.open_field("lights[key].support.column.height_m");
    twins.write("2.15 m");
    twins.key(ImGuiKey_Enter);
    hand.needed_s += point_s + button_s;
    hand.keys(7);
    // The sitter is 5 ft 6 in.
    hand.click(mirror.grip(Plane::plan, GripKind::head, {Thing::subject, {}}));
    twins.open_field("subject.stature_m");
    twins.write("5'6\"");
    twins.key(ImGuiKey_Enter);
    hand.needed_s += point_s + button_s;
    hand.keys(5);

    const std::filesystem::path file = session.sets() / "built.json";
    session.hand.key("ctrl+s");
    ui::open_file_list(mirror.app.files, session.sets(), true, "new set.json");
    mirror.frames(3);
    twins.away();
    twins.expect_same({362, 132, 556, 370}, "the list to save in");
    twins.name_file(file.string());
    hand.keys(12);
    wait_for("the set in its file", [&] { return text_of(file) == mirror.text(); });

    const Set built = set_in(file);
    for (const char* role : {"key", "fill", "rim light", "background light"})
        CHECK(std::any_of(built.lights.begin(), built.lights.end(),
                          [&](const Light& light) { return light.role == role; }));
    CHECK(built.subject.stature_m == Approx(66 * 0.0254).epsilon(1e-12));
    mirror.catch_up(true);
    CHECK_FALSE(mirror.any_danger());
    CHECK(mirror.app.review->portrait.key == "key");
    twins.expect_same_verdicts();
    session.photograph("13-from-an-empty-set", 2.0);
    WARN("by the keystroke-level model a hand needs " << hand.needed_s << " s");
    CHECK(hand.needed_s < 120.0);
    CHECK(session.quit() == 0);
}
