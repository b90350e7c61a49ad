#include "engine/edit/command.h"

#include "sim/set/set_io.h"
#include "tests/sim/set/example_set.h"

#include <catch2/catch.hpp>

using namespace keystead;

namespace {

std::string refusal(const Command& command) {
    const auto changed = keystead::apply(example::set(), command);
    return changed ? "accepted" : changed.problem().message();
}

} // namespace

TEST_CASE("One value is replaced and nothing else", "[edit]") {
    const Set before = example::set();
    const auto after =
        keystead::apply(before, SetValue{"lights[key].support.column.height_m", "2.4"});
    REQUIRE(after);
    CHECK(after.value().lights[0].support.column.height_m == 2.4);
    Set back = after.value();
    back.lights[0].support.column.height_m = before.lights[0].support.column.height_m;
    CHECK(write_set(back) == write_set(before));
}

TEST_CASE("Lights are named by id, and by number where no id matches", "[edit]") {
    const auto by_id = keystead::apply(example::set(), SetValue{"lights[rim].on", "false"});
    const auto by_number = keystead::apply(example::set(), SetValue{"lights[1].on", "false"});
    REQUIRE(by_id);
    REQUIRE(by_number);
    CHECK(write_set(by_id.value()) == write_set(by_number.value()));
}

TEST_CASE("A value the gear cannot take is refused in the gear's words, by id", "[edit]") {
    CHECK(refusal(SetValue{"lights[key].support.arm.reach_m", "9.0"}) ==
          "lights[key].support.arm.reach_m: 9.0 is above this arm's 0.96");
    CHECK(refusal(SetValue{"lights[key].support.arm.reach_m", "NaN"}) ==
          "lights[key].support.arm.reach_m: NaN is not JSON");
    CHECK(refusal(SetValue{"lights[key].support.arm.reech_m", "0.5"}) ==
          "lights[key].support.arm.reech_m: is not a field of the set");
    CHECK(refusal(SetValue{"lights[fill].on", "true"}) == "lights[fill]: is not in the set");
    CHECK(refusal(SetValue{"lights[rim].support.arm.reach_m", "0.5"}) ==
          "lights[rim].support.arm: is not there to be changed");
    CHECK(refusal(SetValue{"", "1"}).find("is not a path") != std::string::npos);
    CHECK(refusal(SetValue{"lights[key", "1"}).find("is not a path") != std::string::npos);
    CHECK(refusal(RemoveLight{"fill"}) == "lights[fill]: is not in the set");
}

TEST_CASE("Gear can be exchanged, added and taken off by path", "[edit]") {
    const auto bag = keystead::apply(example::set(), SetValue{"lights[key].support.bags[1]",
                                                              R"({"from": "bag-6.8", "leg": 2})"});
    REQUIRE(bag);
    CHECK(bag.value().lights[0].support.bags.size() == 2);
    const auto no_bag =
        keystead::apply(bag.value(), SetValue{"lights[key].support.bags[0]", "null"});
    REQUIRE(no_bag);
    CHECK(no_bag.value().lights[0].support.bags.at(0).leg == 2);
    const auto arm = keystead::apply(
        example::set(), SetValue{"lights[rim].support.arm", R"({"from": "grip-arm-50"})"});
    REQUIRE(arm);
    CHECK(arm.value().lights[1].support.arm->length_m == Approx(0.51));
    const auto bare = keystead::apply(arm.value(), SetValue{"lights[rim].support.arm", "null"});
    REQUIRE(bare);
    CHECK_FALSE(bare.value().lights[1].support.arm);
    const auto nose =
        keystead::apply(example::set(), SetValue{"subject.proportions.bigonial_mm", "118"});
    REQUIRE(nose);
    CHECK(nose.value().subject.proportions.bigonial_mm == 118.0);
}

TEST_CASE("A light added from the catalogue gets a free name and its own place", "[edit]") {
    const auto once =
        keystead::apply(example::set(), AddLight{"", "Hair light", "boom-roller-200",
                                                 "monolight-200", "strip-30x90-grid"});
    REQUIRE(once);
    CHECK(once.value().lights[2].id == "hair-light");
    CHECK(once.value().lights[2].support.arm);
    const auto twice = keystead::apply(once.value(), AddLight{"", "Hair light", "", "", ""});
    REQUIRE(twice);
    CHECK(twice.value().lights[3].id == "hair-light-2");
    const auto& lights = twice.value().lights;
    CHECK(glm::length(lights[2].support.base.position_m - lights[3].support.base.position_m) > 0.5);
    CHECK(refusal(AddLight{"", "", "century-4000", "", ""}).find("support: \"century-4000\"") == 0);
    CHECK(refusal(AddLight{"key", "", "", "", ""}).find("already the id") != std::string::npos);
}

TEST_CASE("A batch is judged by its end: its steps may pass through what is not allowed",
          "[edit]") {
    const Batch batch{"longer arm",
                      {SetValue{"lights[key].support.arm.reach_m", "1.4"},
                       SetValue{"lights[key].support.arm.max_reach_m", "1.5"},
                       SetValue{"lights[key].support.arm.length_m", "2.0"}}};
    const auto changed = keystead::apply(example::set(), batch);
    REQUIRE(changed);
    CHECK(changed.value().lights[0].support.arm->reach_m == 1.4);
}

TEST_CASE("The undo list says what a colleague would", "[edit]") {
    CHECK(label_of(SetValue{"lights[key].support.column.height_m", "2"}) == "column height of key");
    CHECK(label_of(SetValue{"lights[key].support.arm.reach_m", "2"}) == "arm reach of key");
    CHECK(label_of(SetValue{"lights[key].support.bags[0].mass_kg", "2"}) == "bag 1 mass of key");
    CHECK(label_of(SetValue{"lights[key].head.power_stops_below", "2"}) == "power of key");
    CHECK(label_of(SetValue{"subject.head_turn_deg", "2"}) == "head turn");
    CHECK(label_of(SetValue{"camera.focal_length_mm", "50"}) == "camera focal length");
    CHECK(label_of(AddLight{"", "fill", "", "", ""}) == "add fill");
    CHECK(label_of(RemoveLight{"rim"}) == "remove rim");
    CHECK(label_of(Batch{"mirror the set", {}}) == "mirror the set");
}
