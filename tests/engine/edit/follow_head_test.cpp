// A light that goes with the head: name, face-relative direction and distance stay.
#include "engine/edit/follow_head.h"

#include "engine/edit/history.h"
#include "sim/portrait/pattern.h"
#include "sim/review/review.h"
#include "tests/engine/edit/demo_set.h"

#include <catch2/catch.hpp>

using namespace keystead;

namespace {

LightReview light_of(const Studio& studio, const std::string& id) {
    ReviewOptions quick;
    quick.margins = quick.bounce = false;
    for (const LightReview& light : review_set(studio, quick).lights)
        if (light.id == id) return light;
    FAIL("no light " << id);
    return {};
}

} // namespace

TEST_CASE("A key that follows the head keeps its pattern, direction and distance",
          "[edit][follow]") {
    for (const char* name : {"harbour-choir-short.json", "harbour-choir-broad.json"}) {
        const Set set = demo(name);
        const auto before = make_studio(set);
        const LightReview was = light_of(*before, "key");
        for (const double turn : {-12.0, 5.0, 14.0}) {
            HeadPose head{set.subject.head_turn_deg + turn, set.subject.head_nod_deg,
                          set.subject.head_roll_deg};
            const auto followed = follow_with(*before, "key", head);
            REQUIRE(followed);
            INFO(name << " turned by " << turn << ": " << followed.value().stopped_by);
            CHECK(followed.value().stopped_by.empty());
            const auto moved = keystead::apply(set, followed.value().command);
            REQUIRE(moved);
            CHECK(moved.value().subject.head_turn_deg == Approx(head.turn_deg));
            const auto after = make_studio(moved.value(), before);
            const LightReview is = light_of(*after, "key");
            CHECK(is.pattern_if_alone == was.pattern_if_alone);
            CHECK(is.face_angles.azimuth_deg == Approx(was.face_angles.azimuth_deg).margin(0.05));
            CHECK(is.face_angles.elevation_deg ==
                  Approx(was.face_angles.elevation_deg).margin(0.05));
            CHECK(is.distance_to_face_m == Approx(was.distance_to_face_m).margin(1e-3));
            // What it reads on the face stays too: its turn to it did.
            REQUIRE(is.f_number);
            CHECK(*is.f_number == Approx(*was.f_number).epsilon(0.005));
        }
    }
}

TEST_CASE("The edit is one entry of the undo list and undone as one", "[edit][follow]") {
    const Set set = demo("harbour-choir-short.json");
    const auto studio = make_studio(set);
    const auto followed = follow_with(
        *studio, "key",
        {set.subject.head_turn_deg + 10.0, set.subject.head_nod_deg, set.subject.head_roll_deg});
    REQUIRE(followed);
    CHECK(label_of(followed.value().command) == "head with key");
    const auto there = keystead::apply(set, followed.value().command);
    REQUIRE(there);
    CHECK(write_set(there.value()) != write_set(set));
    // Only the head and the one light changed.
    Set back = there.value();
    back.subject = set.subject;
    for (std::size_t i = 0; i < back.lights.size(); ++i)
        if (back.lights[i].id == "key") back.lights[i] = set.lights[i];
    CHECK(write_set(back) == write_set(set));
}

TEST_CASE("A wall stops the light, and the edit says which and goes as far as it can",
          "[edit][follow]") {
    Set set = demo("harbour-choir-short.json");
    const auto key_base = [](const Set& s) {
        for (const Light& light : s.lights)
            if (light.id == "key") return light.support.base;
        return Base{};
    };
    // The walls beside the key and behind the camera come as near as its feet allow, with a hand's
    // breadth to spare: going round the sitter one way or the other meets one of them.
    const Base base = key_base(set);
    const bool right = base.position_m.x > 0.0;
    const double aside_m = std::abs(base.position_m.x) + base.foot_radius_m + 0.10;
    if (right)
        set.room.width_m = set.room.left_of_subject_m + aside_m;
    else
        set.room.left_of_subject_m = aside_m;
    set.room.depth_m = set.room.behind_subject_m + base.position_m.y + base.foot_radius_m + 0.10;
    const auto studio = make_studio(set);
    int stopped = 0;
    for (const double turn : {-50.0, 50.0}) {
        const double wanted = set.subject.head_turn_deg + turn;
        const auto followed = follow_with(
            *studio, "key", {wanted, set.subject.head_nod_deg, set.subject.head_roll_deg});
        REQUIRE(followed);
        INFO(turn << ": " << followed.value().stopped_by);
        if (followed.value().stopped_by.empty()) continue;
        ++stopped;
        CHECK(followed.value().stopped_by.find("wall") != std::string::npos);
        CHECK(std::abs(followed.value().head.turn_deg - wanted) > 1.0);
        REQUIRE(keystead::apply(set, followed.value().command));
    }
    CHECK(stopped >= 1);
}

TEST_CASE("A light that the set lacks cannot follow", "[edit][follow]") {
    const auto studio = make_studio(demo("harbour-choir-short.json"));
    const auto followed = follow_with(*studio, "moon", {});
    REQUIRE_FALSE(followed);
    CHECK(followed.problem().message() == "lights[moon]: is not in the set");
}
