// Learn without a window: what is said of a face, the chart's dot, the key that moves with a head.
#include "engine/ui/learn.h"

#include "engine/ui/learn_words.h"
#include "engine/ui/pattern_card.h"
#include "engine/ui/shadow_overlay.h"
#include "sim/portrait/pattern.h"
#include "tests/engine/ui/window_bench.h"

#include <chrono>
#include <thread>

using namespace keystead;
using namespace keystead::ui;
using testing::example;
using testing::light_of;

namespace {

constexpr const char* short_set = "harbour-choir-short";

std::size_t key_of(const Set& set) {
    return *light_index(set, "key");
}

/// What the workshop and the tutor would have made, once for all tests; the chart with nodes twelve
/// degrees apart, good enough to be drawn and dragged on.
struct Made {
    std::shared_ptr<const Studio> studio;
    Review review;
    std::shared_ptr<const FaceChart> chart;
    std::shared_ptr<MapLesson> map;
};

const Made& made() {
    static const Made all = [] {
        Made m;
        m.studio = make_studio(example(short_set));
        m.review = review_set(*m.studio, {.margins = false});
        m.chart = make_face_chart(*m.studio->form);
        m.map = std::make_shared<MapLesson>();
        const std::size_t key = key_of(m.studio->set);
        m.map->made_for = map_for(*m.studio, key);
        m.map->map = map_patterns(*m.chart, m.studio->emitters[key], m.studio->subject->head_axes,
                                  m.studio->subject->head_origin_m, m.map->made_for.distance_m,
                                  {-60.0, 84.0, 12.0});
        return m;
    }();
    return all;
}

/// The whole window with all of that in it.
struct LearnBench : testing::WindowBench {
    explicit LearnBench(float width = 1280.0F, float height = 720.0F)
        : WindowBench(short_set, width, height) {
        app.settings.learn = true;
        app.studio = made().studio;
        app.review = made().review;
        app.studio_revision = app.review_revision = app.revision();
        app.selection = {Thing::light, "key"};
        app.learn.map = made().map;
        frames(2);
    }
    Rect chart() const { return chart_rect(layout().elevation, table.theme); }
    const PatternMap& map() const { return app.learn.map->map; }
    ImVec2 dot() const {
        const std::size_t key = key_of(app.history.set());
        return chart_point(chart(), map(),
                           lamp_direction(*app.studio, app.drawn.poses[key].emitter_m));
    }
};

} // namespace

TEST_CASE("Dragging the chart's dot carries the light round the face as one undo step", "[learn]") {
    LearnBench bench;
    const Set before = bench.app.history.set();
    const std::size_t key = key_of(before);
    const Vec3 face = bench.app.studio->subject->landmarks.face;
    const double distance_m = glm::distance(bench.app.drawn.poses[key].emitter_m, face);
    const Angles was = lamp_direction(*bench.app.studio, bench.app.drawn.poses[key].emitter_m);
    const ImVec2 from = bench.dot(),
                 to = chart_point(bench.chart(), bench.map(),
                                  {was.azimuth_deg - 20.0, was.elevation_deg - 5.0});
    bench.drag(from, to);
    CHECK(bench.app.dragging());
    const Angles is = lamp_direction(*bench.app.studio, bench.app.drawn.poses[key].emitter_m);
    CHECK(is.azimuth_deg == Approx(was.azimuth_deg - 20.0).margin(1.2)); // steps of a degree
    CHECK(is.elevation_deg == Approx(was.elevation_deg - 5.0).margin(1.2));
    CHECK(glm::distance(bench.app.drawn.poses[key].emitter_m, face) ==
          Approx(distance_m).margin(2e-3));
    // At the same distance the chart still holds: no newer one is wanted.
    CHECK(same_map(bench.app.learn.map->made_for,
                   map_for(*make_studio(bench.app.history.set(), bench.app.studio), key)));
    bench.let_go();
    CHECK_FALSE(bench.app.dragging());
    CHECK(bench.app.history.undo_label() == "key round the face");
    REQUIRE(bench.app.history.undo());
    CHECK(write_set(bench.app.history.set()) == write_set(before));
    CHECK_FALSE(bench.app.history.can_undo());
}

TEST_CASE("Escape brings the dot back, and limits say their number", "[learn]") {
    LearnBench bench;
    const Set before = bench.app.history.set();
    const ImVec2 top = chart_point(bench.chart(), bench.map(), {30.0, 84.0});
    bench.drag(bench.dot(), top);
    CHECK(bench.app.learn.dot.pushed_back.find(" m") != std::string::npos);
    bench.table.key(ImGuiKey_Escape, true), bench.frames(2);
    bench.table.key(ImGuiKey_Escape, false), bench.frames(1);
    CHECK(write_set(bench.app.history.set()) == write_set(before));
    bench.let_go();
    CHECK_FALSE(bench.app.history.can_undo());
    // Pressing beside the dot moves nothing.
    const ImVec2 dot = bench.dot();
    bench.drag({dot.x + 60.0F, dot.y}, {dot.x + 90.0F, dot.y});
    bench.let_go();
    CHECK(write_set(bench.app.history.set()) == write_set(before));
}

TEST_CASE("F7 switches Learn on and off, and the chart takes the elevation's place", "[learn]") {
    LearnBench bench;
    constexpr int f7 = 296; // as GLFW numbers it
    bench.press(f7, false);
    CHECK_FALSE(bench.app.settings.learn);
    bench.press(f7, false);
    CHECK(bench.app.settings.learn);
    // The words in its header lead to the elevation and back.
    const Rect view = bench.layout().elevation;
    bench.click({view.right() - 24.0F, view.y + 16.0F});
    CHECK(bench.app.learn.elevation_shown);
    bench.click({view.right() - 24.0F, view.y + 16.0F});
    CHECK_FALSE(bench.app.learn.elevation_shown);
}

TEST_CASE("A frame with Learn can be built at any size", "[learn]") {
    for (const auto& size : {std::pair{200.0F, 150.0F}, std::pair{800.0F, 500.0F},
                             std::pair{1920.0F, 1080.0F}, std::pair{3840.0F, 2160.0F}}) {
        LearnBench bench(size.first, size.second);
        bench.app.learn.face = std::make_shared<const FaceLesson>(
            teach_face(bench.app.studio, key_of(bench.app.history.set()), *made().chart));
        bench.frames(2);
        CHECK(ImGui::GetDrawData()->TotalVtxCount > 0);
    }
}

TEST_CASE("What is written on a face is on it, in the picture, and off the eyes", "[learn]") {
    for (const char* name : {short_set, "harbour-choir-broad", "lantern-maker"}) {
        const auto studio = make_studio(example(name));
        const FaceLesson lesson =
            teach_face(studio, key_of(studio->set), *make_face_chart(*studio->form));
        INFO(name);
        REQUIRE(lesson.words.size() >= 2);
        CHECK(lesson.lines.size() >= 1);
        bool nose = false;
        for (const FaceLesson::Word& word : lesson.words) {
            INFO(word.words);
            nose = nose || word.words == "nose shadow";
            CHECK(word.at.x >= lesson.face.low.x);
            CHECK(word.at.x <= lesson.face.high.x);
            CHECK(word.at.y >= lesson.face.low.y);
            CHECK(word.at.y <= lesson.face.high.y);
        }
        // The keys of these sets make a nose shadow that counts.
        if (lesson.reading.lost_light_mm2 > 100.0) CHECK(nose);
        testing::Table table;
        LabelMemory memory;
        std::vector<Rect> boxes;
        const Rect picture{20, 40, 516, 344};
        const CloseUp close = close_to_face(*studio);
        table.frame([&] {
            boxes = shadow_overlay({ImGui::GetWindowDrawList(), &table.theme}, picture,
                                   {picture, close}, lesson, true, memory);
        });
        CHECK(boxes.size() >= 2);
        for (std::size_t i = 0; i < boxes.size(); ++i) {
            for (std::size_t j = 0; j < i; ++j) CHECK_FALSE(overlap(boxes[i], boxes[j]));
            for (const FaceLesson::Box& eye : lesson.eyes) {
                const Vec2 at = close.at(0.5 * (eye.low + eye.high));
                const ImVec2 middle{
                    picture.centre_x() + 0.5F * picture.w * static_cast<float>(at.x),
                    picture.centre_y() - 0.5F * picture.h * static_cast<float>(at.y)};
                CHECK_FALSE(boxes[i].contains(middle.x, middle.y));
            }
        }
    }
}

TEST_CASE("Close to the face, every place is where the same sight line leads", "[learn]") {
    const auto& studio = *made().studio;
    const CloseUp close = close_to_face(studio);
    REQUIRE_FALSE(close.whole());
    const View whole = keystead::lens_view(studio.set.camera, 300, 450),
               part = part_of(whole, close);
    for (const Vec3& mark :
         {studio.subject->landmarks.pronasale, studio.subject->landmarks.pupil_left,
          studio.subject->landmarks.menton}) {
        Vec2 in_whole(0.0), in_part(0.0);
        REQUIRE(project(whole, 300, 450, mark, in_whole));
        REQUIRE(project(part, 300, 450, mark, in_part));
        const Vec2 at = close.at({in_whole.x / 150.0 - 1.0, 1.0 - in_whole.y / 225.0});
        CHECK(at.x == Approx(in_part.x / 150.0 - 1.0).margin(1e-6));
        CHECK(at.y == Approx(1.0 - in_part.y / 225.0).margin(1e-6));
    }
    // The head fills a little over half of the height, and the part lies within the whole.
    Vec2 crown(0.0), chin(0.0);
    REQUIRE(project(part, 300, 450, studio.subject->landmarks.vertex, crown));
    REQUIRE(project(part, 300, 450, studio.subject->landmarks.menton, chin));
    CHECK((chin.y - crown.y) / 450.0 == Approx(0.55).margin(0.03));
    CHECK(std::abs(close.centre.x) + close.share <= 1.0 + 1e-9);
    CHECK(std::abs(close.centre.y) + close.share <= 1.0 + 1e-9);
}

TEST_CASE("With the pattern kept, a turned head takes the key along as one step", "[learn]") {
    const Set set = example(short_set);
    HeadFollow follow;
    follow.on = true;
    follow.start = made().studio;
    follow.light = "key";
    follow.letter = "A";
    History history(set);
    const double turn = set.subject.head_turn_deg + 8.0;
    REQUIRE_FALSE(history.run(head_command(follow, "subject.head_turn_deg", turn)));
    CHECK(follow.stopped.empty());
    CHECK(history.set().subject.head_turn_deg == Approx(turn));
    const auto after = make_studio(history.set(), follow.start);
    const std::size_t key = key_of(set);
    const Angles was = lamp_direction(*follow.start, follow.start->emitters[key].centre_m),
                 is = lamp_direction(*after, after->emitters[key].centre_m);
    CHECK(is.azimuth_deg == Approx(was.azimuth_deg).margin(0.05));
    CHECK(is.elevation_deg == Approx(was.elevation_deg).margin(0.05));
    // Back in the same drag: head and light are where they began.
    REQUIRE_FALSE(
        history.run(head_command(follow, "subject.head_turn_deg", set.subject.head_turn_deg)));
    CHECK(glm::distance(light_of(history.set(), "key").support.base.position_m,
                        light_of(set, "key").support.base.position_m) < 2e-4);
    // Far enough, and a wall or the column stops it: it says which.
    REQUIRE_FALSE(history.run(head_command(follow, "subject.head_nod_deg", 60.0)));
    CHECK_FALSE(follow.stopped.empty());
    CHECK(history.set().subject.head_nod_deg < 60.0);
    // Off, the head goes alone.
    follow.on = false;
    const auto alone = head_command(follow, "subject.head_turn_deg", 3.0);
    CHECK(std::holds_alternative<SetValue>(alone));
}

TEST_CASE("A head turned by its grip says who moves along", "[learn]") {
    LearnBench bench;
    bench.app.learn.follow.on = true;
    bench.frames(2);
    REQUIRE(bench.app.learn.follow.active());
    const Set before = bench.app.history.set();
    const Page page = bench.plan();
    const Vec3 head = 0.5 * (bench.app.drawn.landmarks.vertex + bench.app.drawn.landmarks.menton);
    const ImVec2 at = page.at(head);
    const ImVec2 from{at.x, at.y + 6.0F};
    bench.drag(from, {at.x + 1.5F, at.y + 6.0F});
    CHECK(bench.app.sheet_drag.words.find("moves along") != std::string::npos);
    bench.let_go();
    const Set& after = bench.app.history.set();
    CHECK(after.subject.head_turn_deg != before.subject.head_turn_deg);
    CHECK(light_of(after, "key").support.base.position_m !=
          light_of(before, "key").support.base.position_m);
    REQUIRE(bench.app.history.undo());
    CHECK(write_set(bench.app.history.set()) == write_set(before));
}

TEST_CASE("A chart holds for another place of the lamp, not for another lamp", "[learn]") {
    Set set = example(short_set);
    const std::size_t key = key_of(set);
    const MapFor first = map_for(*make_studio(set), key);
    CHECK(same_map(first, first));
    Set other = set;
    other.lights[key].modifier.width_m *= 1.2;
    CHECK_FALSE(same_map(first, map_for(*make_studio(other), key)));
    other = set;
    other.lights[key].support.base.position_m *= 1.1;
    CHECK_FALSE(same_map(first, map_for(*make_studio(other), key)));
    other = set;
    other.lights[key].head.power_stops_below += 1.0;
    CHECK(same_map(first, map_for(*make_studio(other), key)));
    other = set;
    other.subject.hair_style =
        set.subject.hair_style == HairStyle::none ? HairStyle::bob : HairStyle::none;
    CHECK_FALSE(same_map(first, map_for(*make_studio(other), key)));
}

TEST_CASE("The next names are said nearest first", "[learn]") {
    PortraitReview portrait;
    CHECK(next_names(portrait).empty());
    portrait.pattern = Pattern::loop;
    portrait.holds = PatternHolds{};
    portrait.holds->key_azimuth_deg = {-14.2, 9.6, Pattern::butterfly, Pattern::rembrandt};
    portrait.holds->key_height_deg = {-24.0, 5.7, Pattern::loop, Pattern::rembrandt};
    CHECK(next_names(portrait) ==
          "Next: Rembrandt 6° higher, butterfly 14° to the sitter's right.");
    CHECK(direction_words({41.6, -20.2}) == "42° to the sitter's left, 20° down");
    CHECK(direction_words({0.2, 0.3}) == "straight on, level");
}

TEST_CASE("Lessons are made beside the window, and an overtaken chart is left off", "[learn]") {
    const auto studio = made().studio;
    Learn learn;
    learn.tutor = make_tutor({});
    LessonsWanted wanted;
    wanted.on = true;
    wanted.studio = studio;
    wanted.light = key_of(studio->set);
    keep_learning(learn, wanted);
    CHECK(learning(learn));
    // Another lamp before the first chart can be there: it takes the first one's place.
    Set wider = studio->set;
    wider.lights[*wanted.light].modifier.width_m *= 1.2;
    wanted.studio = make_studio(wider, studio);
    keep_learning(learn, wanted);
    bool rough = false;
    for (int i = 0; i < 12000 && !(learn.map && learn.face && !learning(learn)); ++i) {
        rough = rough || (learn.map && learn.map->rough);
        take_lessons(learn);
        keep_learning(learn, wanted);
        std::this_thread::sleep_for(std::chrono::milliseconds(10));
    }
    REQUIRE(learn.map);
    CHECK(same_map(learn.map->made_for, map_for(*wanted.studio, *wanted.light)));
    REQUIRE(learn.face);
    CHECK(learn.face->studio == wanted.studio);
    CHECK_FALSE(learn.map_wanted);
    // A rough chart came first.
    CHECK(rough);
    CHECK_FALSE(learn.map->rough);
    wanted.on = false;
    keep_learning(learn, wanted);
    CHECK_FALSE(learn.face);
}
