// Edits nobody should make, each found by random ones or read off the code, and what becomes of
// them.
#include "engine/edit/document_path.h"
#include "engine/edit/history.h"
#include "engine/edit/journal.h"
#include "sim/set/set_io.h"
#include "tests/sim/set/example_set.h"

#include <catch2/catch.hpp>

using namespace keystead;

namespace {

std::string refusal(const Command& command) {
    const auto changed = keystead::apply(example::set(), command);
    REQUIRE_FALSE(changed);
    CHECK_FALSE(changed.problem().path.empty());
    CHECK_FALSE(changed.problem().allowed.empty());
    return changed.problem().message();
}
Set after(const Set& set, const Command& command) {
    const auto changed = keystead::apply(set, command);
    INFO((changed ? std::string() : changed.problem().message()));
    REQUIRE(changed);
    return changed.value();
}
Batch steps(std::vector<Command> commands) {
    return {"", std::move(commands)};
}
const std::string no_utf8 = "a\xFF";

} // namespace

TEST_CASE("A place within a field that is left out is refused", "[edit]") {
    CHECK(refusal(SetValue{"subject.proportions.bigonial_mm[0]", "1"}) ==
          "subject.proportions.bigonial_mm: is not a field of the set");
    CHECK(refusal(SetValue{"subject.proportions.bigonial_mm.x", "1"}) ==
          "subject.proportions.bigonial_mm: is not a field of the set");
}

TEST_CASE("Whatever an optional number is set to, it can be taken away and set again", "[edit]") {
    const std::string path = "lights[key].head.beam_cd_s";
    Set set = after(example::set(), SetValue{path, "5000"});
    CHECK(set.lights[0].head.beam_cd_s == 5000.0);
    set = after(set, SetValue{path, "null"});
    CHECK_FALSE(set.lights[0].head.beam_cd_s);
    CHECK(after(set, SetValue{path, "6000"}).lights[0].head.beam_cd_s == 6000.0);
    CHECK(may_be_left_out("gel", "colour"));
    CHECK(may_be_left_out("file", "chin_m"));
    CHECK_FALSE(may_be_left_out("head", "mass_kg"));
    CHECK_FALSE(may_be_left_out("head", "calibration")); // written as null
}

TEST_CASE("Steps of a batch find anything where lights should be", "[edit]") {
    for (const char* value : {"5", "null", "[5]", "[null, []]", "[{\"id\": 7}]", "{}"}) {
        const SetValue broken{"lights", value};
        CHECK_FALSE(refusal(steps({broken, AddLight{}})).empty());
        CHECK_FALSE(refusal(steps({broken, RemoveLight{"key"}})).empty());
        CHECK_FALSE(refusal(steps({broken, SetValue{"lights[key].on", "true"}})).empty());
    }
    CHECK_FALSE(
        refusal(steps({SetValue{"lights[0].support.base.position_m", "[\"a\"]"}, AddLight{}}))
            .empty());
    CHECK_FALSE(
        refusal(steps({SetValue{"lights[key].id", "7"}, SetValue{"lights[rim].id", "\"key\""}}))
            .empty());
}

TEST_CASE("Text that is no UTF-8 gets into no set", "[edit]") {
    CHECK(refusal(AddLight{"", no_utf8, "", "", ""}).find("is not UTF-8") != std::string::npos);
    CHECK(refusal(AddLight{no_utf8, "", "", "", ""}).find("is not UTF-8") != std::string::npos);
    Set set = example::set();
    set.notes = no_utf8;
    REQUIRE(validate(set));
    CHECK(validate(set)->path == "notes");
    CHECK(save_set(set, "/nowhere/at/all.json")->path == "notes");
}

TEST_CASE("A text's length is counted in characters of any script", "[edit]") {
    std::string role;
    for (int i = 0; i < 64; ++i) role += "\xE6\x97\xA5";
    CHECK(after(example::set(), AddLight{"", role, "", "", ""}).lights.back().role == role);
    CHECK(refusal(AddLight{"", role + "n", "", "", ""}).find("65 characters are more than 64") !=
          std::string::npos);
}

TEST_CASE("A refusal is one line of text whatever was asked for", "[edit]") {
    CHECK(refusal(SetValue{"", "1"}).find("path: \"\"") == 0);
    CHECK(refusal(SetValue{"room\n", "1"}).find("room?: is not a path") == 0);
    CHECK(refusal(SetValue{"room[\xFF]", "1"}).find("room[?]: is not a path") == 0);
    CHECK(refusal(SetValue{"name", "\xFF"}).find('\xFF') == std::string::npos);
    CHECK(refusal(RemoveLight{"\n"}) == "lights[?]: is not in the set");
    CHECK(refusal(AddLight{"", "", "\xFF\n", "", ""}).find('\n') == std::string::npos);
    CHECK(refusal(SetValue{"lights[key].id", "\"\\t\""}).find("lights[0].id") == 0);
}

TEST_CASE("A meter point is named by its id in a refusal, as lights are", "[edit]") {
    const Set set = after(example::set(),
                          SetValue{"meter_points", R"([{"id": "chin", "position_m": [0, 1, 0]}])"});
    const auto wrong = keystead::apply(set, SetValue{"meter_points[chin].elevation_deg", "99"});
    REQUIRE_FALSE(wrong);
    CHECK(wrong.problem().path == "meter_points[chin].elevation_deg");
}

TEST_CASE("A new light's own name is free among all parts and not too long", "[edit]") {
    Set set = after(example::set(),
                    SetValue{"meter_points", R"([{"id": "fill", "position_m": [0, 1, 0]}])"});
    set = after(set, AddLight{"", "fill", "", "", ""});
    CHECK(set.lights.back().id == "fill-2");
    CHECK(after(set, AddLight{"", "face", "", "", ""}).lights.back().id == "face-2");
    const std::string role(64, 'n');
    set = after(after(set, AddLight{"", role, "", "", ""}), AddLight{"", role, "", "", ""});
    CHECK(set.lights.back().id == role.substr(0, 60) + "-2");
}

TEST_CASE("Empty brackets append, whatever the others are called", "[edit]") {
    const std::string light = R"({"id": "new", "modifier": {"from": "octa-120"}})";
    const Set numbered = after(example::set(), SetValue{"lights[rim].id", "\"2\""});
    const SetValue append{"lights[]", light};
    CHECK(after(numbered, append).lights.size() == 3);
    CHECK(after(numbered, append).lights.back().id == "new");
    CHECK(after(numbered, SetValue{"lights[]", "null"}).lights.size() == 2);
    // By number it is the light of that name which is meant.
    CHECK(after(numbered, SetValue{"lights[2]", light}).lights.size() == 2);
    CHECK(label_of(append) == "add to lights");
    CHECK(refusal(SetValue{"lights[].on", "true"}) == "lights[]: is not in the set");
}

TEST_CASE("Unknown fields are taken only as far as they can be read again", "[edit]") {
    const auto nested = [](int levels) {
        const auto count = static_cast<std::size_t>(levels);
        return R"({"unknown": )" + std::string(count, '[') + std::string(count, ']') + "}";
    };
    const auto fields = [](int count) {
        std::string text = "{\"f\": 0";
        for (int i = 1; i < count; ++i) text += ", \"f" + std::to_string(i) + "\": 0";
        return text + "}";
    };
    // The room's fields stand in the second of the 32 containers that a text may nest.
    const Set deep = after(example::set(), SetValue{"room", nested(30)});
    CHECK(parse_set(write_set(deep)));
    CHECK(refusal(SetValue{"room", nested(31)}).find("room.unknown: is nested deeper") == 0);
    const Set many = after(example::set(), SetValue{"room", fields(256)});
    CHECK(parse_set(write_set(many)));
    CHECK(refusal(SetValue{"room", fields(300)}).find("room: has more than 256") == 0);
    // Arrays of arrays grow when they are indented.
    std::string wide = R"({"unknown": )" + std::string(20, '[');
    for (int i = 0; i < 100000; ++i) wide += "[[0],0],";
    wide += "0" + std::string(20, ']') + "}";
    CHECK(refusal(SetValue{"room", wide}).find("longer than 16 MiB") != std::string::npos);
}

TEST_CASE("A journal's line holds any batch that was accepted", "[edit][history]") {
    History history(example::set());
    REQUIRE_FALSE(history.run(Batch{no_utf8, {SetValue{"room.width_m", "6"}}}));
    Command nested = SetValue{"room.width_m", "7"};
    for (int i = 0; i < 8; ++i) nested = steps({nested});
    REQUIRE_FALSE(history.run(nested));
    CHECK(history.run(steps({nested})));
    const auto again = replay(example::set(), history.journal());
    REQUIRE(again);
    CHECK(write_set(again.value().set()) == write_set(history.set()));
}

TEST_CASE("A drag whose steps lean on each other is played again to the same set",
          "[edit][history]") {
    History history(example::set());
    history.begin_drag();
    REQUIRE_FALSE(history.run(SetValue{"lights[key].support.arm", R"({"from": "grip-arm-50"})"}));
    REQUIRE_FALSE(history.run(SetValue{"lights[key].support.arm.rise_deg", "12"}));
    REQUIRE_FALSE(history.run(SetValue{"lights[key].support.arm", "null"}));
    history.commit_drag();
    REQUIRE_FALSE(history.run(SetValue{"lights[rim].id", "\"back\""}));
    history.begin_drag();
    REQUIRE_FALSE(history.run(SetValue{"lights[back].id", "\"hair\""}));
    REQUIRE_FALSE(history.run(SetValue{"lights[hair].on", "false"}));
    REQUIRE_FALSE(history.run(SetValue{"lights[hair].id", "\"back\""}));
    REQUIRE_FALSE(history.run(SetValue{"lights[back].id", "\"last\""}));
    history.commit_drag();
    const auto again = replay(example::set(), history.journal());
    INFO((again ? std::string() : again.problem().message()));
    REQUIRE(again);
    CHECK(write_set(again.value().set()) == write_set(history.set()));
    CHECK(again.value().undo_label() == history.undo_label());
}
