// Every kind of wrong file: one line that names the path, what was found and what is allowed.
#include "sim/set/set_io.h"
#include "tests/sim/set/example_set.h"

#include <catch2/catch.hpp>
#include <limits>

using namespace keystead;

namespace {

std::string message_of(const std::string& text) {
    const auto loaded = parse_set(text);
    return loaded ? "accepted" : loaded.problem().message();
}

void check_says(const std::string& text, const std::string& expected) {
    const std::string message = message_of(text);
    INFO("message: " << message);
    CHECK(message.find(expected) != std::string::npos);
    CHECK(message.find('\n') == std::string::npos);
}

} // namespace

TEST_CASE("Text that is not a whole JSON document is refused with its place", "[set][bad]") {
    check_says("", "line 1, column 1: the text is empty");
    check_says("  \n ", "the text is empty");
    check_says("hello", "is not JSON");
    check_says("{\"format\": \"keystead-set\",\n  oops}", "line 2, column 3");
    const std::string whole = example::text();
    check_says(whole.substr(0, whole.size() / 2), "cut off");
    check_says(whole + "}", "is not JSON");
    check_says("[1, 2]", "is not a set");
    check_says("{\"name\": \"\xff\"}", "not UTF-8");
}

TEST_CASE("Truncation at any byte is an error and never a crash", "[set][bad]") {
    const std::string whole = example::text();
    for (std::size_t length = 0; length < whole.size(); length += 7) {
        INFO(length);
        CHECK_FALSE(parse_set(whole.substr(0, length)));
    }
}

TEST_CASE("Numbers that are not finite are refused with their path", "[set][bad]") {
    check_says(example::with("5.4", "NaN"), "room.width_m");
    check_says(example::with("5.4", "1e999"), "room.width_m: 1e999 is not a finite number");
    check_says(example::with("\"head_turn_deg\": 12", "\"head_turn_deg\": -Infinity"),
               "subject.head_turn_deg");
    Set set = example::set();
    set.lights[0].head.mass_kg = std::numeric_limits<double>::quiet_NaN();
    REQUIRE(validate(set));
    CHECK(validate(set)->message() ==
          "lights[0].head.mass_kg: not a number is not a finite number");
}

TEST_CASE("Wrong types are named with what was found", "[set][bad]") {
    check_says(example::with("5.4", "\"wide\""), "room.width_m: \"wide\" is not a number");
    check_says(example::with("[-1.2, 1.0]", "[-1.2]"), "lights[0].support.base.position_m: [-1.2]");
    check_says(example::with("[-1.2, 1.0]", "[-1.2, null]"),
               "lights[0].support.base.position_m[1]: null is not a number");
    check_says(example::with("\"walls\": 0.56", "\"walls\": \"grey\""), "room.walls: \"grey\"");
    check_says(example::with("\"leg\": 1", "\"leg\": 1.5"), "bags[0].leg: 1.5");
    check_says(example::with("\"role\": \"key\"", "\"on\": 1"),
               "lights[0].on: 1 is not true or false");
    check_says(example::with("\"seated\"", "7"), "subject.posture: 7");
    check_says(R"({"format": "keystead-set", "version": 1, "lights": {}})",
               "lights: {} is not a list");
}

TEST_CASE("Sizes out of range name the range and the unit", "[set][bad]") {
    check_says(example::with("5.4", "-5.4"), "room.width_m: -5.4 is outside 1 to 60 m");
    check_says(example::with("\"walls\": 0.56", "\"walls\": 1.2"),
               "room.walls: 1.2 is outside 0 to 1");
    check_says(example::with("0.225", "-0.1"), "room.floor[1]: -0.1 is outside 0 to 1");
    check_says(example::with("20.5", "205"),
               "subject.proportions.nose_protrusion_mm: 205.0 is outside 8 to 40 mm");
}

TEST_CASE("Limits between fields are named by the gear they belong to", "[set][bad]") {
    const std::string arm = "lights[0].support.arm.reach_m: 9.0 is above this arm's 0.96";
    check_says(example::with("\"reach_m\": 0.6", "\"reach_m\": 9.0"), arm);
    check_says(example::with("\"reach_m\": 0.6", "\"reach_m\": 0.1"),
               "lights[0].support.arm.reach_m: 0.1 is below this arm's 0.3");
    check_says(example::with("\"height_m\": 2.1", "\"height_m\": 4.5"),
               "lights[0].support.column.height_m: 4.5 is above this column's 3.2");
    check_says(example::with("\"power_stops_below\": 2", "\"power_stops_below\": 9"),
               "lights[0].head.power_stops_below: 9.0 is above this head's range 7");
    check_says(example::with("\"leg\": 1", "\"leg\": 3"),
               "lights[0].support.bags[0].leg: 3 is not one of this base's legs 0 to 2");
    check_says(example::with("\"leg\": 1, \"at_m\": 0.3", "\"place\": \"tail\", \"at_m\": 0.6"),
               "lights[0].support.bags[0].at_m: 0.6 is above this arm's tail of 0.42");
}

TEST_CASE("Unknown kinds list what is allowed", "[set][bad]") {
    check_says(example::with("\"v_flat\"", "\"curtain\""),
               "panels[0].kind: \"curtain\" is not one of reflector, flag, v_flat, scrim or cutter");
    check_says(example::with("\"kind\": \"point\"", "\"kind\": \"ceiling\""),
               "is not one of landmark, point or angles");
    check_says(example::with("\"octa-120\"", "\"octa-12\""),
               "lights[0].modifier.from: \"octa-12\"");
    check_says(example::with("\"octa-120\"", "\"octa-12\""), "octa-120");
}

TEST_CASE("A newer or missing version says what to do", "[set][bad]") {
    check_says(example::with("\"version\": 1", "\"version\": 3"),
               "version: 3 is newer than 1; this file needs a newer Keystead");
    check_says(example::with("\"version\": 1", "\"version\": \"one\""), "version: \"one\"");
    check_says(example::with("\"version\": 1,", ""), "version: is missing");
    check_says(example::with("\"format\": \"keystead-set\", ", ""), "format: is missing");
    check_says(example::with("keystead-set", "something-else"), "format: \"something-else\"");
}

TEST_CASE("Ids are unique and usable in paths", "[set][bad]") {
    check_says(example::with("\"id\": \"rim\"", "\"id\": \"key\""),
               "lights[1].id: \"key\" is already the id of another part of the set");
    check_says(example::with("\"id\": \"flat\"", "\"id\": \"rim\""), "panels[0].id: \"rim\"");
    check_says(example::with("\"id\": \"flat\"", "\"id\": \"\""), "panels[0].id: \"\"");
    check_says(example::with("\"id\": \"flat\"", "\"id\": \"room\""), "choose another");
    check_says(example::with("\"id\": \"flat\"", "\"id\": \"a[1]\""), "brackets");
}

TEST_CASE("A field given twice is refused with its path", "[set][bad]") {
    check_says(example::with("\"reach_m\": 0.6", "\"reach_m\": 0.6, \"reach_m\": 0.7"),
               "lights[0].support.arm.reach_m: is given twice");
    check_says(example::with("\"id\": \"rim\"", "\"id\": \"rim\", \"id\": \"rim\""),
               "lights[1].id");
}

TEST_CASE("Huge and deep texts are refused before they cost anything", "[set][bad]") {
    check_says(std::string(17U << 20U, ' '), "more than 16 MiB");
    check_says(std::string(100000, '['), "nested deeper than 32 levels");
    std::string deep = "{\"a\":";
    for (int i = 0; i < 60; ++i) deep += "{\"b\":";
    check_says(deep, "nested deeper");
    std::string wide = "{";
    for (int i = 0; i < 2000; ++i) wide += "\"f" + std::to_string(i) + "\":1,";
    check_says(wide, "more than 512 fields");
    std::string many = R"({"format": "keystead-set", "version": 1, "lights": [)";
    for (int i = 0; i < 70; ++i)
        many += std::string(i > 0 ? "," : "") + "{\"id\": \"l" + std::to_string(i) + "\"}";
    check_says(many + "]}", "lights: 70 entries are more than 64");
}

TEST_CASE("Files that are not there or not files are refused with their name", "[set][bad]") {
    const auto missing = load_set("/no/such/set.json");
    REQUIRE_FALSE(missing);
    CHECK(missing.problem().message() == "/no/such/set.json: no such file");
    CHECK_FALSE(load_set("/tmp"));
    CHECK_FALSE(load_set("/dev/zero"));
}
