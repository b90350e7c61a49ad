// A light carried round the face by one command: direction, distance and undo.
#include "engine/edit/light_round.h"

#include "engine/edit/history.h"
#include "sim/portrait/pattern.h"
#include "tests/engine/edit/demo_set.h"

#include <catch2/catch.hpp>

using namespace keystead;

namespace {

std::size_t key_of(const Studio& studio) {
    for (std::size_t i = 0; i < studio.emitters.size(); ++i)
        if (studio.emitters[i].light == "key") return i;
    FAIL("no key");
    return 0;
}

/// The key's direction from the face as the head has it, and its distance.
std::pair<Angles, double> place_of(const Studio& studio) {
    const Vec3 way = studio.emitters[key_of(studio)].centre_m - studio.subject->landmarks.face;
    return {face_angles(way, studio.subject->head_axes), glm::length(way)};
}

} // namespace

TEST_CASE("A key carried round the face hangs there once the set is built anew", "[edit][round]") {
    const Set set = demo("harbour-choir-short.json");
    const auto before = make_studio(set);
    const auto [was, distance_m] = place_of(*before);
    for (const double more : {-15.0, 4.0}) {
        const Angles wanted{was.azimuth_deg + more, was.elevation_deg - 3.0};
        const auto round = carry_light_round(*before, "key", wanted);
        REQUIRE(round);
        INFO(round.value().pushed_back);
        CHECK(round.value().pushed_back.empty());
        History history(set);
        REQUIRE_FALSE(history.run(round.value().command));
        CHECK(history.undo_label() == "key round the face");
        const auto after = make_studio(history.set(), before);
        const auto [is, now_m] = place_of(*after);
        CHECK(is.azimuth_deg == Approx(wanted.azimuth_deg).margin(0.05));
        CHECK(is.elevation_deg == Approx(wanted.elevation_deg).margin(0.05));
        CHECK(is.azimuth_deg == Approx(round.value().direction.azimuth_deg).margin(0.05));
        CHECK(now_m == Approx(distance_m).margin(2e-3));
        REQUIRE(history.undo());
        CHECK(write_set(history.set()) == write_set(set));
    }
}

TEST_CASE("What keeps a key from where it was wanted is said, with the number", "[edit][round]") {
    const auto studio = make_studio(demo("harbour-choir-short.json"));
    const auto round = carry_light_round(*studio, "key", {30, 84});
    REQUIRE(round);
    CHECK(round.value().pushed_back.find(" m") != std::string::npos);
    CHECK(round.value().direction.elevation_deg < 84.0);
    CHECK_FALSE(carry_light_round(*studio, "nobody", {0, 0}));
}
