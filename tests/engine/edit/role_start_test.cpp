#include "engine/edit/command.h"
#include "engine/edit/role_start.h"
#include "sim/review/review.h"
#include "sim/studio/studio.h"

#include <catch2/catch.hpp>
#include <cmath>

using namespace keystead;

namespace {

Set with_all_roles(Set set) {
    for (const char* role : starting_roles()) {
        const Result<Set> more = keystead::apply(set, AddLight{"", role, "", "", ""});
        INFO(role << ": " << (more ? "" : more.problem().message()));
        REQUIRE(more);
        set = more.value();
    }
    return set;
}

double stops_of(const Review& review, const Set& set, const std::string& role) {
    for (std::size_t i = 0; i < set.lights.size(); ++i)
        if (set.lights[i].role == role) return review.lights[i].stops_from_key.value_or(-99.0);
    return 99.0;
}

} // namespace

// What a usual portrait of five lights is like: common practice.
TEST_CASE("From an empty set five usual roles make a portrait set that stands and reads") {
    for (const double turn_deg : {0.0, 25.0, -30.0}) {
        Set empty;
        empty.subject.head_turn_deg = empty.subject.body_turn_deg = turn_deg;
        const Set set = with_all_roles(empty);
        REQUIRE(set.lights.size() == 5);
        const Review review = review_set(*make_studio(set));
        for (const Finding& finding : review.findings) {
            INFO("head turned " << turn_deg << ", " << finding.code << ": " << finding.message);
            CHECK(finding.level != Level::danger);
            CHECK(finding.code.find("merges") == std::string::npos);
            CHECK(finding.code.rfind("support-", 0) != 0);
        }
        for (const SupportReview& support : review.supports)
            CHECK(support.stability.verdict == Verdict::stable);
        CHECK(review.portrait.key == "key");
        CHECK(review.portrait.pattern == Pattern::loop);
        if (turn_deg != 0.0) CHECK(review.portrait.side == Side::short_side);
        REQUIRE(review.exposure.stops_off);
        CHECK(std::abs(*review.exposure.stops_off) < 0.5);
        CHECK(stops_of(review, set, "fill") == Approx(-2.0).margin(0.5));
        CHECK(stops_of(review, set, "background light") < -6.0);
    }
}

TEST_CASE("A usual role begins inside small rooms, for a seated sitter and any frame") {
    Set set;
    set.room.width_m = 2.6, set.room.depth_m = 3.4, set.room.ceiling_m = 2.4;
    set.room.left_of_subject_m = 1.3, set.room.behind_subject_m = 1.2;
    set.background.distance_m = 1.0;
    set.camera.position_m = {0.0, 1.2, 1.9};
    set.subject.posture = Posture::seated;
    set.camera.orientation = Orientation::upright;
    set = with_all_roles(set);
    for (const Light& light : set.lights) {
        INFO(light.id);
        const Vec2 at = light.support.base.position_m;
        CHECK(std::abs(at.x) < 1.3);
        CHECK(at.y > -1.2);
        CHECK(at.y < 2.2);
    }
}

TEST_CASE("Gear that is asked for is hung in place of the role's own") {
    const Result<Set> set =
        keystead::apply(Set{}, AddLight{"", "key", "century-20-arm", "", "dish-55"});
    REQUIRE(set);
    CHECK(set.value().lights[0].support.from == "century-20-arm");
    CHECK(set.value().lights[0].modifier.from == "dish-55");
}
