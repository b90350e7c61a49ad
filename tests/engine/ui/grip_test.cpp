#include "engine/ui/grips.h"
#include "tests/engine/ui/sets.h"

#include <cmath>

using namespace keystead;
using namespace keystead::ui;
using testing::example;
using testing::light_of;

namespace {

Set after(const Set& set, const Dragged& dragged) {
    REQUIRE(dragged.command);
    const Result<Set> changed = keystead::apply(set, *dragged.command);
    INFO((changed ? std::string() : changed.problem().message()));
    REQUIRE(changed);
    return changed.value();
}

Grip grip(GripKind kind, const std::string& light, int leg = 0) {
    return {kind, {Thing::light, light}, leg, {}, {}, 0.0F};
}

} // namespace

TEST_CASE("A base pulled over the plan lands on a five-centimetre step, finer with Shift") {
    const Drawn start = draw_set(example("harbour-choir-short"), nullptr);
    const Vec2 old = light_of(start.set, "key").support.base.position_m;
    const Vec2 pull(0.52, -0.31);
    const Set coarse = after(start.set, drag_grip(grip(GripKind::base, "key"), start, Plane::plan,
                                                  {0, 0}, pull, DragManner{}));
    const Vec2 at = light_of(coarse, "key").support.base.position_m;
    CHECK(at.x == Approx(std::round((old.x + pull.x) * 20.0) / 20.0));
    CHECK(at.y == Approx(std::round((old.y + pull.y) * 20.0) / 20.0));
    const Set fine = after(start.set, drag_grip(grip(GripKind::base, "key"), start, Plane::plan,
                                                {0, 0}, pull, DragManner{true}));
    CHECK(light_of(fine, "key").support.base.position_m.x ==
          Approx(std::round((old.x + pull.x) * 100.0) / 100.0));
}

TEST_CASE("A column pulled too far stops at its limit and says so") {
    const Drawn start = draw_set(example("harbour-choir-short"), nullptr);
    const Column& column = light_of(start.set, "key").support.column;
    const Dragged up = drag_grip(grip(GripKind::column, "key"), start, Plane::elevation, {0, 0},
                                 {0, 9}, DragManner{});
    CHECK(light_of(after(start.set, up), "key").support.column.height_m ==
          Approx(column.max_height_m));
    CHECK(up.pushed_back.find("at most 3.30 m") == 0);
    const Dragged down = drag_grip(grip(GripKind::column, "key"), start, Plane::elevation, {0, 0},
                                   {0, -9}, DragManner{});
    CHECK(light_of(after(start.set, down), "key").support.column.height_m ==
          Approx(column.min_height_m));
}

TEST_CASE("The tip of a leg pulled round the column turns the base") {
    const Drawn start = draw_set(example("harbour-choir-short"), nullptr);
    const Vec2 base = light_of(start.set, "fill").support.base.position_m;
    // Toward +X from the column is an azimuth of 90°.
    const Set changed =
        after(start.set, drag_grip(grip(GripKind::leg, "fill", 0), start, Plane::plan, base,
                                   base + Vec2(0.5, 0.0), DragManner{}));
    CHECK(light_of(changed, "fill").support.base.turn_deg == Approx(90.0));
}

TEST_CASE("A lamp on an arm swings to where it is pulled and keeps its height") {
    const Drawn start = draw_set(example("harbour-choir-short"), nullptr);
    const std::size_t index = *light_index(start.set, "hair");
    const Vec3 tip = start.poses[index].tip_m, top = start.poses[index].column_top_m;
    // Straight toward +X from the column, as far out as it is now.
    const double out = std::hypot(tip.x - top.x, tip.z - top.z);
    const Vec2 from(tip.x, tip.z), to(top.x + out, top.z);
    const Set changed = after(start.set, drag_grip(grip(GripKind::body, "hair"), start, Plane::plan,
                                                   from, to, DragManner{true}));
    const Drawn now = draw_set(changed, nullptr);
    CHECK(now.poses[index].tip_m.x == Approx(top.x + out).margin(0.02));
    CHECK(now.poses[index].tip_m.z == Approx(top.z).margin(0.02));
    CHECK(now.poses[index].tip_m.y == Approx(tip.y).margin(0.01));
}

TEST_CASE("A lamp on an arm pulled up in the elevation rises within its clamp") {
    const Drawn start = draw_set(example("harbour-choir-short"), nullptr);
    const std::size_t index = *light_index(start.set, "hair");
    const Vec3 tip = start.poses[index].tip_m;
    const Vec2 from(tip.z, tip.y);
    const Set changed =
        after(start.set, drag_grip(grip(GripKind::body, "hair"), start, Plane::elevation, from,
                                   from + Vec2(0.0, 0.3), DragManner{true}));
    CHECK(draw_set(changed, nullptr).poses[index].tip_m.y == Approx(tip.y + 0.3).margin(0.04));
    const Dragged far = drag_grip(grip(GripKind::body, "hair"), start, Plane::elevation, from,
                                  from + Vec2(0.0, 30.0), DragManner{});
    CHECK(light_of(after(start.set, far), "hair").support.arm->rise_deg <=
          light_of(start.set, "hair").support.arm->max_rise_deg);
    CHECK_FALSE(far.pushed_back.empty());
}

TEST_CASE("The head turns by the angle the pointer goes round it") {
    const Drawn start = draw_set(example("harbour-choir-short"), nullptr);
    const Grip head{GripKind::head, {Thing::subject, {}}, 0, {}, {}, 0.0F};
    // From straight ahead (+Z) to camera right (+X) is +90°.
    const Set changed =
        after(start.set, drag_grip(head, start, Plane::plan, {0.0, 0.2}, {0.2, 0.0}, DragManner{}));
    CHECK(changed.subject.head_turn_deg == Approx(start.set.subject.head_turn_deg + 90.0));
}

TEST_CASE("What lies on top is taken hold of first, and each thing can be reached") {
    const Drawn drawn = draw_set(example("lantern-maker"), nullptr);
    Page page;
    page.plane = Plane::plan;
    page.px_per_m = 120.0F;
    page.origin = {500.0F, 400.0F};
    for (std::size_t i = 0; i < drawn.set.lights.size(); ++i) {
        const Selection chosen{Thing::light, drawn.set.lights[i].id};
        const auto grips = grips_of(drawn, nullptr, page, chosen);
        const auto hit = grip_at(grips, page.at(drawn.poses[i].tip_m));
        REQUIRE(hit);
        INFO(drawn.set.lights[i].id);
        CHECK(hit->what == chosen);
        CHECK(hit->kind == GripKind::body);
    }
    CHECK_FALSE(grip_at(grips_of(drawn, nullptr, page, {}), {-5000.0F, -5000.0F}));
}

TEST_CASE("A light that keeps its distance goes round the face") {
    const Drawn start = draw_set(example("harbour-choir-short"), nullptr);
    DragManner manner;
    manner.keeps_distance = true;
    const Set round = after(start.set, drag_grip(grip(GripKind::base, "key"), start, Plane::plan,
                                                 {0, 0}, {-0.6, 1.1}, manner));
    const auto distance = [](const Set& set) {
        const Drawn drawn = draw_set(set, nullptr);
        return glm::length(drawn.poses[0].emitter_m - drawn.landmarks.face);
    };
    CHECK(round.lights[0].support.base.position_m != start.set.lights[0].support.base.position_m);
    CHECK(distance(round) == Approx(distance(start.set)).margin(1e-3));
}

TEST_CASE("A dragged target is a landmark where one is near, else a point of the room") {
    const Drawn start = draw_set(example("harbour-choir-short"), nullptr);
    Grip aim = grip(GripKind::aim, "key");
    aim.near_m = 0.08;
    const Vec2 face = on_plane(start.landmarks.face, Plane::elevation);
    const Vec2 chest = on_plane(start.landmarks.chest, Plane::elevation);
    const Dragged down = drag_grip(aim, start, Plane::elevation, face, chest + Vec2(0.02), {});
    CHECK(after(start.set, down).lights[0].aim.landmark == "chest");
    CHECK(down.words == "aimed at: chest");
    const Set point =
        after(start.set, drag_grip(aim, start, Plane::elevation, face, face + Vec2(0.4, 0.3), {}));
    CHECK(point.lights[0].aim.kind == AimKind::point);
    CHECK(point.lights[0].aim.point_m.x == Approx(start.landmarks.face.x).margin(1e-6));
    CHECK(point.lights[0].aim.point_m.y == Approx(start.landmarks.face.y + 0.3).margin(0.026));
    const Grip camera{GripKind::aim, {Thing::camera, {}}, 0, {}, {}, 8.0F};
    const Set turned =
        after(start.set, drag_grip(camera, start, Plane::plan, {0, 0}, {0.2, 0.0}, {}));
    CHECK(turned.camera.aim_m.x == Approx(start.set.camera.aim_m.x + 0.2).margin(0.026));
}

TEST_CASE("A sitter that is moved leaves the room where it is") {
    const Drawn start = draw_set(example("harbour-choir-short"), nullptr);
    const Grip sitter{GripKind::sitter, {Thing::subject, {}}, 0, {}, {}, 9.0F};
    const Set moved =
        after(start.set, drag_grip(sitter, start, Plane::plan, {0, 0}, {0.5, -0.3}, {}));
    const auto from_wall = [](const Set& set, double x) { return set.room.left_of_subject_m + x; };
    const auto from_back = [](const Set& set, double z) { return set.room.behind_subject_m + z; };
    CHECK(from_wall(moved, 0.0) == Approx(from_wall(start.set, 0.5)));
    CHECK(from_back(moved, 0.0) == Approx(from_back(start.set, -0.3)));
    for (std::size_t i = 0; i < moved.lights.size(); ++i) {
        const Vec2 was = start.set.lights[i].support.base.position_m,
                   is = moved.lights[i].support.base.position_m;
        CHECK(from_wall(moved, is.x) == Approx(from_wall(start.set, was.x)));
        CHECK(from_back(moved, is.y) == Approx(from_back(start.set, was.y)));
    }
    CHECK(from_back(moved, moved.camera.position_m.z) ==
          Approx(from_back(start.set, start.set.camera.position_m.z)));
    CHECK(from_back(moved, -moved.background.distance_m) ==
          Approx(from_back(start.set, -start.set.background.distance_m)));
    CHECK(moved.camera.aim_m == start.set.camera.aim_m);
    // No further than to the background.
    const Set far = after(start.set, drag_grip(sitter, start, Plane::plan, {0, 0}, {0, -9}, {}));
    CHECK(far.background.distance_m == Approx(0.2));
}
