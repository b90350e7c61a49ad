// The subject's rows: what they show, and the commands they give.
#include "sim/subject/skin_scale.h"
#include "tests/engine/ui/panel_bench.h"
#include "tests/engine/ui/sets.h"

using namespace keystead;
using namespace keystead::ui;
using testing::Bench;
using testing::changed;
using testing::example;

namespace {

struct SubjectBench : Bench {
    void show(const Set& set) {
        frame([&](Flow& flow) { subject_panel(flow, set, open); });
    }
    void click_on(float x, float y, const Set& set) {
        click(x, y, [&](Flow& flow) { subject_panel(flow, set, open); });
    }
};

} // namespace

TEST_CASE("The subject's panel shows every word that the document may hold") {
    SubjectBench bench;
    bench.open.worn = true;
    Set set = example("harbour-choir-short");
    for (const HairStyle style : {HairStyle::none, HairStyle::long_hair, HairStyle::curly}) {
        set.subject.hair_style = style;
        bench.show(set);
    }
    set.subject.arms = ArmPose::crossed;
    set.subject.clothing_finish = ClothFinish::satin;
    set.subject.proportions.preset = "large-female";
    bench.show(set);
    const float plain = bench.bottom;
    set.subject.gaze.kind = GazeKind::angles;
    set.subject.hat = Hat{};
    set.subject.glasses = Glasses{};
    bench.show(set);
    CHECK(bench.bottom > plain + 6.0F * 20.0F);
    set.subject.grey_card = true;
    const float dressed = bench.bottom;
    bench.show(set);
    CHECK(bench.bottom < dressed);
    CHECK(bench.edits.empty());
}

TEST_CASE("Typing how much skin reflects takes the colour of the scale") {
    SubjectBench bench;
    bench.open.pose = false;
    const Set set = example("harbour-choir-short");
    // Two section heads of 32, then hair and its reflectance of 26 each.
    bench.click_on(330.0F, 2.0F * 32.0F + 2.0F * 26.0F + 13.0F, set);
    REQUIRE(bench.rows.editing != 0);
    bench.table.type("12");
    bench.show(set), bench.show(set);
    bench.table.key(ImGuiKey_Enter, true);
    bench.show(set), bench.show(set);
    REQUIRE(bench.edits.size() == 1);
    const Vec3 skin = changed(set, bench.edits[0].command).subject.skin.rgb;
    for (int c = 0; c < 3; ++c) CHECK(skin[c] == Approx(skin_of_luminance(0.12)[c]).margin(1e-4));
}

TEST_CASE("Hat and glasses come with usual sizes and go again") {
    const Set bare = example("harbour-choir-short");
    for (const char* path : {"subject.hat", "subject.glasses"}) {
        const Set worn = changed(bare, SetValue{path, "{}"});
        CHECK((worn.subject.hat.has_value() || worn.subject.glasses.has_value()));
        const Set off = changed(worn, set_nothing(path));
        CHECK_FALSE((off.subject.hat.has_value() || off.subject.glasses.has_value()));
    }
    CHECK(changed(bare, SetValue{"subject.hat", "{}"}).subject.hat->brim_mm == Hat{}.brim_mm);
}

TEST_CASE("A click puts the grey card on and takes it off") {
    SubjectBench bench;
    bench.open.pose = false;
    Set set = example("harbour-choir-short");
    for (const bool before : {false, true}) {
        set.subject.grey_card = before;
        bench.edits.clear();
        bench.show(set);
        // The last row of its section: a gap of 6, the section head of 32 and a line follow it.
        const float rows = before ? 1.0F : 7.0F;
        bench.click_on(360.0F, 2.0F * 32.0F + 26.0F * rows + 13.0F, set);
        REQUIRE(bench.edits.size() == 1);
        CHECK(changed(set, bench.edits[0].command).subject.grey_card != before);
    }
}
