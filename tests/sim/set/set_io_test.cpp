#include "sim/set/set_io.h"

#include "sim/set/catalogue.h"
#include "sim/set/field_rules.h"
#include "tests/sim/set/example_set.h"

#include <algorithm>
#include <catch2/catch.hpp>

using namespace keystead;

TEST_CASE("A set written by hand is read with its gear from the catalogue", "[set]") {
    const Set set = example::set();
    REQUIRE(set.lights.size() == 2);
    const Light& key = set.lights[0];
    CHECK(key.head.energy_ws == 400);
    CHECK(key.head.power_stops_below == 2);
    CHECK(key.modifier.width_m == Approx(1.2));
    REQUIRE(key.support.arm);
    CHECK(key.support.arm->reach_m == Approx(0.6));
    CHECK(key.support.arm->length_m == Approx(1.02)); // the catalogue's, untouched by the override
    CHECK(key.support.bags.at(0).mass_kg == Approx(11.3));
    CHECK(set.room.walls.rgb == Vec3(0.56));
    CHECK(set.room.floor.rgb == Vec3(0.23, 0.225, 0.215));
    CHECK(set.subject.proportions.nose_protrusion_mm == 20.5);
    CHECK_FALSE(set.subject.proportions.bigonial_mm);
    REQUIRE(set.lights[1].modifier.grid);
    CHECK(set.lights[1].aim.kind == AimKind::point);
}

TEST_CASE("Writing and reading again gives the same text", "[set]") {
    const std::string once = write_set(example::set());
    const auto again = parse_set(once);
    REQUIRE(again);
    CHECK(again.value().notes.empty());
    CHECK(write_set(again.value().set) == once);
}

TEST_CASE("An arm taken off a catalogue stand stays off after saving", "[set]") {
    Set set = example::set();
    set.lights[0].support.arm.reset();
    set.lights[1].modifier.grid.reset();
    const auto again = parse_set(write_set(set));
    REQUIRE(again);
    CHECK_FALSE(again.value().set.lights[0].support.arm);
    CHECK_FALSE(again.value().set.lights[1].modifier.grid);
}

TEST_CASE("Fields this version does not know are noted and kept in place", "[set]") {
    const auto loaded = parse_set(
        example::with(R"("reach_m": 0.6)", R"("reach_m": 0.6, "paint": {"hue": [1, 2]})"));
    REQUIRE(loaded);
    REQUIRE(loaded.value().notes.size() == 1);
    CHECK(loaded.value().notes[0].path == "lights[0].support.arm.paint");
    const std::string text = write_set(loaded.value().set);
    const auto again = parse_set(text);
    REQUIRE(again);
    CHECK(again.value().notes.size() == 1);
    REQUIRE(again.value().set.lights[0].support.arm->extras.size() == 1);
    CHECK(again.value().set.lights[0].support.arm->extras[0].second == R"({"hue":[1,2]})");
}

TEST_CASE("A saved set does not depend on the catalogue", "[set]") {
    std::string text = write_set(example::set());
    const std::string name = "\"monolight-400\"";
    text.replace(text.find(name), name.size(), "\"gone-from-the-shelf\"");
    const auto loaded = parse_set(text);
    REQUIRE(loaded);
    CHECK(loaded.value().set.lights[0].head.energy_ws == 400);
    REQUIRE(loaded.value().notes.size() == 1);
    CHECK(loaded.value().notes[0].path == "lights[0].head.from");
}

TEST_CASE("Points and colours are written on one line", "[set]") {
    const std::string text = write_set(example::set());
    CHECK(text.find("\"floor\": [0.23, 0.225, 0.215]") != std::string::npos);
    CHECK(text.find("\"walls\": 0.56") != std::string::npos);
    CHECK(text.find("\n  \"format\": \"keystead-set\",\n  \"version\": 1,\n") != std::string::npos);
}

TEST_CASE("The default set is valid and says so after a round trip", "[set]") {
    const Set plain;
    CHECK_FALSE(validate(plain));
    CHECK(parse_set(write_set(plain)));
}

TEST_CASE("The catalogue holds the gear a portrait studio has", "[set][catalogue]") {
    INFO((catalogue_problem() ? catalogue_problem()->message() : ""));
    REQUIRE_FALSE(catalogue_problem());
    const Catalogue& gear = catalogue();
    CHECK(gear.supports.size() >= 12);
    CHECK(gear.heads.size() >= 6);
    CHECK(gear.modifiers.size() >= 16);
    CHECK(gear.bags.size() >= 3);
    CHECK(gear.counterweights.size() >= 3);
    CHECK(gear.grids.size() >= 5);
    for (const SupportKind kind : {SupportKind::low, SupportKind::standard, SupportKind::century,
                                   SupportKind::roller, SupportKind::boom}) {
        const auto count = std::count_if(gear.supports.begin(), gear.supports.end(),
                                         [&](const auto& e) { return e.value.kind == kind; });
        INFO(word_of(kind));
        CHECK(count >= 2);
    }
    for (const auto& entry : gear.supports)
        if (entry.value.kind == SupportKind::boom) CHECK(entry.value.arm);
}

TEST_CASE("Sandbags weigh what their pounds say", "[set][catalogue]") {
    // Source: exact conversion, rows 167 to 169 of checks.csv hold the statics side of it.
    const double pounds[] = {15, 25, 35};
    const char* ids[] = {"bag-6.8", "bag-11.3", "bag-15.9"};
    for (int i = 0; i < 3; ++i) {
        const auto* bag = find_entry(catalogue().bags, ids[i]);
        REQUIRE(bag);
        CHECK(bag->value.mass_kg == Approx(pounds[i] * 0.45359237).margin(0.05));
    }
}
