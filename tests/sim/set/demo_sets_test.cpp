// The example sets in assets: they load without a note, and their stands are what they should be.
#include "sim/base/frames.h"
#include "sim/set/set_io.h"
#include "sim/support/stability.h"

#include <catch2/catch.hpp>
#include <string>

using namespace keystead;

namespace {

Set demo(const std::string& name) {
    const auto loaded = load_set(std::string(KEYSTEAD_SOURCE_DIR) + "/assets/sets/" + name);
    INFO((loaded ? "" : loaded.problem().message()));
    REQUIRE(loaded);
    CHECK(loaded.value().notes.empty());
    return loaded.value().set;
}

/// Where the light looks, near enough for its statics.
AimTarget rough_aim(const Set& set, const Light& light) {
    AimTarget target;
    target.point_m = light.aim.kind == AimKind::point
                         ? light.aim.point_m
                         : Vec3(0, set.subject.posture == Posture::seated ? 1.2 : 1.59, 0.08);
    return target;
}

Stability stand_of(const Set& set, const Light& light) {
    return assess(light, pose_support(light, rough_aim(set, light)), set.limits);
}

} // namespace

TEST_CASE("Every stand of the example sets stands, but for the one that shall not", "[set][demo]") {
    for (const char* name :
         {"harbour-choir-short.json", "harbour-choir-broad.json", "lantern-maker.json",
          "attic-tailor.json", "night-baker.json", "night-baker-mended.json"}) {
        const Set set = demo(name);
        for (const Light& light : set.lights) {
            const Stability stand = stand_of(set, light);
            INFO(name << ", " << light.id << ": "
                      << (stand.reasons.empty() ? "" : stand.reasons.front()));
            CHECK(stand.verdict == Verdict::stable);
        }
    }
    const Set overreach = demo("overreach.json");
    CHECK(stand_of(overreach, overreach.lights[0]).verdict == Verdict::unstable);
    CHECK(stand_of(overreach, overreach.lights[0]).margin_m < 0.0);
    CHECK(stand_of(overreach, overreach.lights[1]).verdict == Verdict::stable);
}

TEST_CASE("The two harbour choir sets differ in their key and fill only", "[set][demo]") {
    Set one = demo("harbour-choir-short.json");
    const Set other = demo("harbour-choir-broad.json");
    REQUIRE(one.lights.size() == other.lights.size());
    one.name = other.name;
    for (std::size_t i = 0; i < 2; ++i) {
        CHECK(one.lights[i].id == other.lights[i].id);
        CHECK(one.lights[i].head.power_stops_below == other.lights[i].head.power_stops_below);
        one.lights[i].support.base.position_m = other.lights[i].support.base.position_m;
        one.lights[i].support.base.turn_deg = other.lights[i].support.base.turn_deg;
        CHECK(one.lights[i].support.column.height_m ==
              Approx(other.lights[i].support.column.height_m).margin(0.02));
        one.lights[i].support.column.height_m = other.lights[i].support.column.height_m;
    }
    CHECK(write_set(one) == write_set(other));
}

TEST_CASE("The lantern maker's faces of light are where the plan wants them", "[set][demo]") {
    // Source: the set's own plan (light centre in the room, within 3 cm); the aim is approximate.
    const Set set = demo("lantern-maker.json");
    const Vec3 wanted[] = {{-0.474, 1.996, 0.937},
                           {0.06, 0.66, 0.78},
                           {-1.435, 1.624, -0.990},
                           {-1.98, 1.78, -0.62},
                           {1.75, 1.78, -0.55}};
    for (std::size_t i = 0; i < set.lights.size(); ++i) {
        const Light& light = set.lights[i];
        const Vec3 centre = pose_support(light, rough_aim(set, light)).emitter_m;
        INFO(light.id << " at " << centre.x << ", " << centre.y << ", " << centre.z);
        CHECK(glm::length(centre - wanted[i]) < 0.03);
    }
}
