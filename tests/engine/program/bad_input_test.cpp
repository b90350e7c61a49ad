// The program with input that is wrong: one line that names path, value and what is allowed, exit
// status 2, nothing written.
#include "support/helpers/run.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>
#include <functional>
#include <nlohmann/json.hpp>

namespace {

using Json = nlohmann::ordered_json;

const std::string good_set =
    std::string(KEYSTEAD_SOURCE_DIR) + "/assets/sets/harbour-choir-short.json";

std::string edited(const std::function<void(Json&)>& edit) {
    Json json = Json::parse(testing::read_text(good_set));
    edit(json);
    return json.dump();
}

struct BadFile {
    std::string name;
    std::string text;
    std::vector<std::string> words; ///< each must be in the message
};

std::vector<BadFile> bad_files() {
    const std::string whole = testing::read_text(good_set);
    const auto light = [](Json& json) -> Json& { return json["lights"][0]; };
    return {
        {"truncated", whole.substr(0, whole.size() / 2), {"truncated.json"}},
        {"empty", "", {"empty.json", "empty"}},
        {"not-json", "lights: key at 45 degrees", {"not-json.json"}},
        {"array", "[1, 2, 3]", {"array.json"}},
        {"deep", std::string(100000, '['), {"deep.json"}},
        {"binary", std::string("\x89PNG\r\n\x1a\n\0\0\0\rIHDR", 16), {"binary.json"}},
        {"wrong-type",
         edited([&](Json& j) { light(j)["support"]["column"]["height_m"] = "tall"; }),
         {"lights[0].support.column.height_m", "tall"}},
        {"negative",
         edited([&](Json& j) { light(j)["modifier"]["width_m"] = -0.9; }),
         {"lights[0].modifier.width_m", "-0.9"}},
        {"infinite",
         [&] {
             std::string text = edited([&](Json& j) { j["subject"]["stature_m"] = 98765.0; });
             text.replace(text.find("98765.0"), 7, "1e999");
             return text;
         }(),
         {"infinite.json"}},
        {"nan",
         [&] {
             std::string text = edited([&](Json& j) { j["subject"]["stature_m"] = 98765.0; });
             text.replace(text.find("98765.0"), 7, "NaN");
             return text;
         }(),
         {"nan.json"}},
        {"unknown-kind",
         edited([&](Json& j) { light(j)["support"]["kind"] = "skyhook"; }),
         {"lights[0].support.kind", "skyhook", "roller"}},
        {"newer", edited([](Json& j) { j["version"] = 99; }), {"version", "99", "newer"}},
        {"other-format", edited([](Json& j) { j["format"] = "recipe"; }), {"format", "recipe"}},
        {"twins",
         edited([](Json& j) { j["lights"][1]["id"] = j["lights"][0]["id"]; }),
         {"lights[1].id"}},
    };
}

} // namespace

TEST_CASE("A bad set file gives one line with path, value and what is allowed, and status 2",
          "[program]") {
    const std::string folder = testing::scratch_folder("bad-input");
    for (const BadFile& bad : bad_files()) {
        const std::string file = folder + "/" + bad.name + ".json";
        testing::write_text(file, bad.text);
        const std::string picture = folder + "/" + bad.name + ".png";
        for (const std::string& words :
             {"review '" + file + "' --json", "still '" + file + "' --out '" + picture + "'",
              "open '" + file + "' --screenshot '" + picture + "'"}) {
            const testing::Ran ran = testing::keystead(words);
            INFO(words << "\n" << ran.err);
            CHECK(ran.status == 2);
            CHECK(ran.out.empty());
            CHECK(std::count(ran.err.begin(), ran.err.end(), '\n') == 1);
            for (const std::string& word : bad.words)
                CHECK(ran.err.find(word) != std::string::npos);
            CHECK_FALSE(std::filesystem::exists(picture));
        }
    }
}

TEST_CASE("A huge file is refused without being read whole", "[program]") {
    const std::string folder = testing::scratch_folder("huge-input");
    const std::string file = folder + "/huge.json";
    testing::write_text(file, "{}");
    std::filesystem::resize_file(file, std::uintmax_t{3} << 30U); // sparse
    const testing::Ran ran = testing::keystead("review '" + file + "'");
    INFO(ran.err);
    CHECK(ran.status == 2);
    CHECK(ran.err.find("huge.json") != std::string::npos);
    std::filesystem::remove(file);
}

TEST_CASE("A missing file, a folder and wrong usage end with status 2 and a hint", "[program]") {
    for (const std::string words :
         {"review /nowhere/at-all.json", "review /tmp", "still", "review --nonsense", "",
          "still x.json --out y.png --size 12by7", "no-such-command.json", "photometric",
          "photometric /nowhere/lamp.ies", "import", "import /nowhere/head.glb",
          "import head.glb --unit parsec", "import head.glb --as prop"}) {
        const testing::Ran ran = testing::keystead(words);
        INFO("keystead " << words << "\n" << ran.err << ran.out);
        CHECK(ran.status == 2);
        CHECK_FALSE(ran.err.empty());
    }
}

TEST_CASE("Help and version answer on stdout with status 0", "[program]") {
    for (const std::string words : {"--help", "review --help", "still --help", "open --help",
                                    "photometric --help", "import --help", "--version"}) {
        const testing::Ran ran = testing::keystead(words);
        INFO("keystead " << words << "\n" << ran.err);
        CHECK(ran.status == 0);
        CHECK_FALSE(ran.out.empty());
        CHECK(ran.err.empty());
    }
}
