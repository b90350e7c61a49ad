#include "sim/support/rig.h"
#include "sim/support/wording.h"

#include <catch2/catch.hpp>

using namespace keystead;

namespace {

Light tall_stand() {
    Light light;
    light.support.base.position_m = {1.0, 1.0};
    light.support.base.turn_deg = 45.0 + 180.0 + 60.0; // an edge, not a leg, faces the subject
    light.support.base.mass_kg = 3.0;
    light.support.column.height_m = 2.6;
    light.modifier.com_ahead_m = 0.30;
    return light;
}

} // namespace

TEST_CASE("Reasons are whole sentences, name the way it goes, and never promise safety",
          "[wording]") {
    const Stability s = rig::assess_at(tall_stand(), {0.0, 1.5, 0.0});
    REQUIRE(s.reasons.size() == 2);
    CHECK(s.reasons[0].find("Tips toward the subject at a tilt of ") == 0);
    CHECK(s.reasons[1].find("A push of ") == 0);
    for (const std::string& reason : s.reasons) {
        CHECK(reason.back() == '.');
        CHECK(reason.find("if the masses are 10 % off") != std::string::npos);
        CHECK(reason.find("safe") == std::string::npos);
    }
}

TEST_CASE("Measured masses need no second figure", "[wording]") {
    Light light = tall_stand();
    light.support.measured_masses = true;
    for (const std::string& reason : rig::assess_at(light, {0.0, 1.5, 0.0}).reasons)
        CHECK(reason.find("masses") == std::string::npos);
}

TEST_CASE("Azimuths become the photographer's words", "[wording]") {
    const Vec2 beside(2.0, 0.0);
    CHECK(toward_words(-90.0, beside) == "toward the subject");
    CHECK(toward_words(0.0, beside) == "toward the camera");
    CHECK(toward_words(180.0, beside) == "toward the background");
    CHECK(toward_words(90.0, beside) == "toward camera right");
    CHECK(toward_words(-90.0, -beside) == "toward camera left");
    CHECK(toward_words(0.0, {0.0, 0.0}) == "toward the camera");
}

TEST_CASE("A support that only the uncertainty of its masses tips says so", "[wording]") {
    Light light = tall_stand();
    light.modifier.mass_kg = 0.0;
    light.head.mass_kg = 3.0;
    light.support.column.mass_kg = 0.0;
    rig::add_arm(light, 0.0, 0.0, 0.0, 0.0, 60.0);
    // Slide out until the nominal margin is a centimetre: 10 % off moves it by more.
    double reach_m = 0.3;
    Stability s;
    do {
        rig::add_arm(light, reach_m, reach_m, 0.0, 0.0, 60.0);
        s = rig::assess_at(light, {0.0, 1.5, 0.0});
        reach_m += 0.01;
    } while (s.margin_m > 0.01);
    REQUIRE(s.margin_m > 0.0);
    CHECK(s.worst_margin_m < 0.0);
    CHECK(s.verdict == Verdict::unstable);
    CHECK(s.reasons[0].find("Could fall ") == 0);
}
