// Which lights a moving stand makes new: geometry of boxes, and sets laid out so that the answer is
// plain.
#include "engine/render/box.h"
#include "engine/render/restart.h"
#include "engine/render/scene_changes.h"
#include "engine/render/shadow_fit.h"
#include "sim/studio/studio.h"
#include "sim/transport/view.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <random>

using namespace keystead;

namespace {

Box cube(const glm::vec3& middle, float half) {
    return {middle - half, middle + half};
}

} // namespace

TEST_CASE("A box is between two others where it meets their convex hull", "[restart]") {
    const Box from = cube({0.0F, 0.0F, 0.0F}, 0.1F), to = cube({2.0F, 1.0F, 0.0F}, 0.5F);
    CHECK(between(cube({1.0F, 0.5F, 0.0F}, 0.05F), from, to));
    CHECK(between(cube({0.0F, 0.15F, 0.0F}, 0.06F), from, to));
    // In the box around both, beside the hull.
    CHECK_FALSE(between(cube({0.2F, 1.2F, 0.0F}, 0.1F), from, to));
    CHECK_FALSE(between(cube({1.0F, 0.5F, 0.6F}, 0.1F), from, to));
    // Beyond either end.
    CHECK_FALSE(between(cube({-0.3F, 0.0F, 0.0F}, 0.1F), from, to));
    CHECK_FALSE(between(cube({2.7F, 1.0F, 0.0F}, 0.1F), from, to));
}

TEST_CASE("No line from box to box passes a box that is not between them", "[restart]") {
    std::mt19937 random(7);
    std::uniform_real_distribution<float> place(-1.0F, 1.0F), half(0.02F, 0.4F), share(0.0F, 1.0F);
    const auto any_place = [&] { return glm::vec3(place(random), place(random), place(random)); };
    const auto within = [&](const Box& box) {
        return box.low_m +
               (box.high_m - box.low_m) * glm::vec3(share(random), share(random), share(random));
    };
    int met = 0;
    for (int i = 0; i < 300; ++i) {
        const Box from = cube(any_place(), half(random)), to = cube(any_place(), half(random));
        const Box box = cube(any_place(), half(random));
        bool crossed = false;
        for (int line = 0; line < 200 && !crossed; ++line) {
            const glm::vec3 p = glm::mix(within(from), within(to), share(random));
            crossed = touches(box, {p, p});
        }
        met += crossed ? 1 : 0;
        if (crossed) CHECK(between(box, from, to));
    }
    CHECK(met > 20);
}

TEST_CASE("Boxes by cell hold every point and hug a slanted rod", "[restart]") {
    Mesh rod;
    std::vector<glm::vec3> points;
    for (int i = 0; i <= 200; ++i) {
        points.emplace_back(0.01F * static_cast<float>(i), 0.005F * static_cast<float>(i), 0.0F);
        points.emplace_back(points.back() + glm::vec3(0.0F, 0.0F, 0.02F));
    }
    rod.positions_m = points;
    for (glm::uint i = 0; i + 2 < points.size(); ++i) rod.triangles.emplace_back(i, i + 1, i + 2);
    for (const std::vector<Box>& boxes : {boxes_of(points, 0.25F), boxes_of(rod, 0.25F)}) {
        CHECK(boxes.size() >= 8);
        float volume = 0.0F;
        for (const Box& box : boxes) {
            const glm::vec3 size = box.high_m - box.low_m;
            volume += size.x * size.y * size.z;
        }
        CHECK(volume < 0.25F * 2.0F * 1.0F * 0.02F);
        for (const glm::vec3& point : points)
            CHECK(std::any_of(boxes.begin(), boxes.end(), [&](const Box& box) {
                return touches(box, {point, point});
            }));
    }
}

TEST_CASE("A stand restarts its own light and those whose light it may shade", "[restart]") {
    Set set;
    set.lights.resize(2);
    set.lights[0].id = "first";
    set.lights[1].id = "second";
    set.lights[0].support.base.position_m = Vec2(-2.0, 2.5);
    set.lights[1].support.base.position_m = Vec2(2.0, 2.0);
    const View view = lens_view(set.camera, 160, 120);
    const glm::mat4 sight = clip_from_room(view, 160, 120, glm::vec2(0.0F));
    const auto restarted = [&](const Vec2& to_m) {
        const auto before = make_studio(set);
        Set moved = set;
        moved.lights[0].support.base.position_m = to_m;
        const auto now = make_studio(moved, before);
        std::vector<glm::vec3> seen;
        for (const glm::vec3& place : now->subject->skin->positions_m) seen.push_back(place);
        return restarts_after(*before, *now, scene_changes(before->scene, now->scene), sight, seen);
    };
    const Restart aside = restarted(Vec2(-2.1, 2.5));
    CHECK_FALSE(aside.picture);
    CHECK(aside.lights[0] == 1);
    CHECK(aside.lights[1] == 0);
    // Into the second light's way, out of the camera's sight.
    const Restart in_the_way = restarted(Vec2(1.3, 1.4));
    CHECK_FALSE(in_the_way.picture);
    CHECK(in_the_way.lights[1] == 1);
    CHECK(in_the_way.lights[0] == 1);
}
