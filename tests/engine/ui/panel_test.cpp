#include "engine/ui/gear_outline.h"
#include "engine/ui/remedy.h"
#include "engine/ui/words.h"
#include "sim/support/panel_pose.h"
#include "tests/engine/ui/panel_bench.h"
#include "tests/engine/ui/sets.h"

#include <set>

using namespace keystead;
using namespace keystead::ui;
using testing::Bench;
using testing::changed;
using testing::example;
using testing::light_of;

TEST_CASE("The column's row in the panel sets the column, typed in feet and inches") {
    const Set set = example("harbour-choir-short");
    const Light& key = light_of(set, "key");
    Bench bench;
    const auto body = [&](Flow& flow) { support_section(flow, key, bench.open); };
    // Section head 32, row of the stand's kind 26, then the column.
    bench.click(330.0F, 32.0F + 26.0F + 13.0F, body);
    REQUIRE(bench.rows.editing != 0);
    bench.table.type("8 ft 2 in");
    bench.frame(body), bench.frame(body);
    bench.table.key(ImGuiKey_Enter, true);
    bench.frame(body), bench.frame(body);
    REQUIRE(bench.edits.size() == 1);
    CHECK(bench.edits[0].phase == EditPhase::perform);
    CHECK(light_of(changed(set, bench.edits[0].command), "key").support.column.height_m ==
          Approx(8 * 0.3048 + 2 * 0.0254).margin(1e-4));
}

TEST_CASE("Bags can be added, moved, laid down and taken off by commands") {
    const Set set = example("harbour-choir-short");
    Bag bag;
    bag.mass_kg = 6.8;
    bag.place = BagPlace::leg;
    bag.leg = 1;
    bag.at_m = 0.3;
    std::vector<Bag> bags = light_of(set, "key").support.bags;
    const std::size_t before = bags.size();
    bags.push_back(bag);
    const Set more = changed(set, set_bags("key", bags));
    REQUIRE(light_of(more, "key").support.bags.size() == before + 1);
    CHECK(light_of(more, "key").support.bags.back().leg == 1);
    CHECK(light_of(more, "key").support.bags.back().mass_kg == Approx(6.8));
    bags.back().hanging = false;
    CHECK_FALSE(light_of(changed(set, set_bags("key", bags)), "key").support.bags.back().hanging);
    CHECK(light_of(changed(set, set_bags("key", {})), "key").support.bags.empty());
}

TEST_CASE("A counterweight can be put on an arm without one, and taken off") {
    const Set set = example("overreach");
    REQUIRE(light_of(set, "key").support.arm);
    REQUIRE_FALSE(light_of(set, "key").support.arm->counterweight);
    Counterweight made;
    made.mass_kg = 5.0;
    made.place_m = 0.6;
    const Set with = changed(set, set_counterweight("key", made));
    REQUIRE(light_of(with, "key").support.arm->counterweight);
    CHECK(light_of(with, "key").support.arm->counterweight->mass_kg == Approx(5.0));
    const Set without = changed(with, set_nothing(light_path("key", "support.arm.counterweight")));
    CHECK_FALSE(light_of(without, "key").support.arm->counterweight);
}

TEST_CASE("Grids and gels come and go by commands") {
    const Set set = example("harbour-choir-short");
    const Set gridded =
        changed(set, set_from(light_path("key", "modifier.grid"), "eggcrate-50x50"));
    REQUIRE(light_of(gridded, "key").modifier.grid);
    CHECK(light_of(gridded, "key").modifier.grid->cell_width_m == Approx(0.05));
    CHECK_FALSE(light_of(changed(gridded, set_nothing(light_path("key", "modifier.grid"))), "key")
                    .modifier.grid);
    const Set gelled = changed(set, SetValue{light_path("key", "modifier.gel"),
                                             R"({"mired_shift": 159, "transmission": 0.58})"});
    REQUIRE(light_of(gelled, "key").modifier.gel);
}

TEST_CASE("Every support of the catalogue can be put under a light without losing its place") {
    const Set set = example("harbour-choir-short");
    for (const auto& entry : catalogue().supports)
        for (const char* id : {"key", "hair"}) {
            INFO(entry.id << " under " << id);
            const Light& old = light_of(set, id);
            const Set now = changed(set, change_support(old, entry));
            CHECK(light_of(now, id).support.base.position_m == old.support.base.position_m);
            CHECK(light_of(now, id).support.from == entry.id);
            CHECK(light_of(now, id).support.column.height_m <=
                  light_of(now, id).support.column.max_height_m + 1e-9);
        }
}

TEST_CASE("Every modifier and head of the catalogue can be chosen") {
    const Set set = example("harbour-choir-short");
    for (const auto& entry : catalogue().modifiers)
        CHECK(light_of(changed(set, set_from(light_path("key", "modifier"), entry.id)), "key")
                  .modifier.from == entry.id);
    for (const auto& entry : catalogue().heads)
        CHECK(light_of(changed(set, set_from(light_path("key", "head"), entry.id)), "key")
                  .head.from == entry.id);
}

TEST_CASE("The button of a finding about a stand leaves it standing better") {
    const Drawn drawn = draw_set(example("overreach"), nullptr);
    const std::size_t key = *light_index(drawn.set, "key");
    REQUIRE(drawn.stability[key].verdict == Verdict::unstable);
    const Finding finding{Level::danger, "support-unstable", "key", {}, {}};
    const auto remedy = remedy_for(finding, drawn, {});
    REQUIRE(remedy);
    CHECK_FALSE(remedy->act.empty());
    const Drawn now = draw_set(changed(drawn.set, remedy->command), nullptr);
    CHECK(now.stability[key].worst_tip_angle_deg > drawn.stability[key].worst_tip_angle_deg);
}

TEST_CASE("Findings that are a person's decision have no button") {
    const Drawn drawn = draw_set(example("overreach"), nullptr);
    for (const char* code : {"load-over-person", "in-frame", "strike-order", "unheard-of"})
        CHECK_FALSE(remedy_for({Level::warning, code, "key", {}, {}}, drawn, {}));
    CHECK_FALSE(remedy_for({Level::warning, "support-caution", "nobody", {}, {}}, drawn, {}));
}

TEST_CASE("Unlocked wheels, a loosening clamp and a resting bag are mended by their button") {
    Set set = example("overreach");
    set = changed(set, set_flag(light_path("key", "support.base.locked"), false));
    Bag resting;
    resting.hanging = false;
    set = changed(set, set_bags("key", {resting}));
    const Drawn drawn = draw_set(set, nullptr);
    const auto mended = [&](const char* code) {
        const auto remedy = remedy_for({Level::warning, code, "key", {}, {}}, drawn, {});
        REQUIRE(remedy);
        return changed(set, remedy->command);
    };
    CHECK(light_of(mended("wheels-unlocked"), "key").support.base.locked);
    CHECK(light_of(mended("bag-resting"), "key").support.bags[0].hanging);
    CHECK(light_of(mended("knuckle-loosens"), "key").support.arm->knob_on_right !=
          light_of(set, "key").support.arm->knob_on_right);
}

TEST_CASE("A panel of every kind is called by its own name") {
    Bench bench;
    Set set = example("lantern-maker");
    REQUIRE_FALSE(set.panels.empty());
    std::set<std::string> names;
    for (const PanelKind kind : {PanelKind::reflector, PanelKind::flag, PanelKind::v_flat,
                                 PanelKind::scrim, PanelKind::cutter}) {
        set.panels[0].kind = kind;
        bench.frame([&](Flow& flow) { panel_panel(flow, set, 0, bench.open); });
        names.insert(panel_words(kind));
    }
    CHECK(names.size() == 5);
    CHECK(names.count("cutter") == 1);
}

TEST_CASE("A panel can be hung from every stand of the catalogue, turned silver and set down") {
    Set set = example("lantern-maker");
    REQUIRE_FALSE(set.panels.empty());
    const std::string id = set.panels[0].id;
    for (const auto& entry : catalogue().supports) {
        INFO(entry.id);
        set = changed(set, set_from(panel_path(id, "support"), entry.id));
        REQUIRE(set.panels[0].support.has_value());
        CHECK(set.panels[0].support->from == entry.id);
    }
    // The outline follows: its middle is at the stand's tip.
    set = changed(set, SetValue{panel_path(id, "support.base.position_m"), "[1.5,0.25]"});
    const SupportPose carrier = *pose_panel(set.panels[0]).support;
    const std::vector<Vec3> corners = panel_points(set.panels[0]);
    REQUIRE(corners.size() == 6);
    CHECK(glm::length(0.5 * (corners[1] + corners[4]) - carrier.tip_m) < 1e-9);
    set = changed(set, set_word(panel_path(id, "finish"), "silver"));
    CHECK(set.panels[0].finish == PanelFinish::silver);
    set = changed(set, set_nothing(panel_path(id, "support")));
    CHECK_FALSE(set.panels[0].support.has_value());
}

TEST_CASE("A long name opened in its field and kept is the same name") {
    Bench bench;
    std::string name;
    for (int i = 0; i < 200; ++i) name += "\xE6\x97\xA5";
    std::optional<std::string> typed;
    const auto body = [&](Flow& flow) {
        flow.y = 40.0F;
        if (auto words = words_row(flow, "name", "name", name)) typed = std::move(words);
    };
    bench.click(370.0F, 53.0F, body);
    REQUIRE(bench.rows.editing != 0);
    bench.table.key(ImGuiKey_Enter, true), bench.frame(body), bench.frame(body);
    bench.table.key(ImGuiKey_Enter, false), bench.frame(body), bench.frame(body);
    CHECK(bench.rows.editing == 0);
    CHECK_FALSE(typed); // it was cut at 95 bytes
}
