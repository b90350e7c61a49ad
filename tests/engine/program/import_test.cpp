// keystead import: offers, and what it writes only when told.
#include "sim/set/set_io.h"
#include "support/helpers/run.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>
#include <nlohmann/json.hpp>

using namespace keystead;
using nlohmann::json;

namespace {

/// A box of a standing figure's size in millimetres, Z up.
const char* const tall_box = "v -260 -150 0\nv 260 -150 0\nv 260 150 0\nv -260 150 0\n"
                             "v -260 -150 1700\nv 260 -150 1700\nv 260 150 1700\nv -260 150 1700\n"
                             "f 4 3 2 1\nf 5 6 7 8\nf 1 2 6 5\nf 2 3 7 6\nf 3 4 8 7\nf 4 1 5 8\n";

struct Bench {
    std::string folder, box, set;
    explicit Bench(const std::string& name)
        : folder(testing::scratch_folder(name))
        , box(folder + "/box.obj")
        , set(folder + "/set.json") {
        testing::write_text(box, tall_box);
        std::filesystem::copy_file(
            std::string(KEYSTEAD_SOURCE_DIR) + "/assets/sets/harbour-choir-short.json", set);
    }
};

} // namespace

TEST_CASE("An import says bounds, offers best first and what face was found", "[program]") {
    const Bench bench("import-report");
    const testing::Ran ran = testing::keystead("import '" + bench.box + "' --json");
    INFO(ran.err);
    REQUIRE(ran.status == 0);
    const json report = json::parse(ran.out);
    CHECK(report["format"] == "obj");
    CHECK(report["triangles"] == 12);
    CHECK(report["bounds"]["high"] == json::parse("[260.0, 150.0, 1700.0]"));
    CHECK(report["offers"][0]["unit"] == "mm");
    CHECK(report["offers"][0]["up"] == "z");
    CHECK(report["offers"][0]["part"] == "figure");
    CHECK(report["offers"][0]["height_m"].get<double>() == Approx(1.7));
    for (std::size_t i = 1; i < report["offers"].size(); ++i)
        CHECK(report["offers"][i]["weight"] <= report["offers"][i - 1]["weight"]);
    CHECK(report["landmarks"]["nose_tip"].is_null());
    CHECK(report["landmarks"]["remark"].get<std::string>().find("No face") == 0);
    const testing::Ran text = testing::keystead("import '" + bench.box + "'");
    CHECK(text.status == 0);
    CHECK(text.out.find("--unit mm --up z") != std::string::npos);
}

TEST_CASE("Without stated unit and up axis an import writes nothing and ends with status 2",
          "[program]") {
    const Bench bench("import-unstated");
    const std::string before = testing::read_text(bench.set);
    for (const std::string stated : {"", " --unit mm", " --up z"}) {
        const testing::Ran ran = testing::keystead("import '" + bench.box + "' --into '" +
                                                   bench.set + "' --as prop" + stated);
        CHECK(ran.status == 2);
        CHECK(ran.out.find("--unit mm --up z") != std::string::npos);
        CHECK(ran.err.find("--unit") != std::string::npos);
        CHECK(testing::read_text(bench.set) == before);
    }
}

TEST_CASE("A stated import puts a prop into the set, with a path that moves along", "[program]") {
    const Bench bench("import-prop");
    const std::string words =
        "import '" + bench.box + "' --into '" + bench.set + "' --as prop --unit mm --up z";
    REQUIRE(testing::keystead(words).status == 0);
    REQUIRE(testing::keystead(words).status == 0);
    const auto loaded = load_set(bench.set);
    REQUIRE(loaded.ok());
    const Set& set = loaded.value().set;
    REQUIRE(set.props.size() == 2);
    CHECK(set.props[0].id != set.props[1].id);
    CHECK(set.props[0].path == "box.obj");
    CHECK(set.props[0].unit == LengthUnit::millimetre);
    CHECK(set.props[0].up == UpAxis::z);
    const testing::Ran review = testing::keystead("review '" + bench.set + "' --quick");
    CHECK(review.status < 2);
    CHECK(review.err.empty());
}

TEST_CASE("A review of a subject whose file shows no face ends with one line and status 2",
          "[program]") {
    const Bench bench("import-faceless");
    REQUIRE(testing::keystead("import '" + bench.box + "' --into '" + bench.set +
                              "' --as subject --unit mm --up z")
                .status == 0);
    CHECK(load_set(bench.set).value().set.subject.file->part == PersonPart::figure);
    for (const std::string command : {"review '", "still --out /nowhere/x.png '"}) {
        const testing::Ran ran = testing::keystead(command + bench.set + "'");
        INFO(ran.err);
        CHECK(ran.status == 2);
        CHECK(ran.out.empty());
        CHECK(std::count(ran.err.begin(), ran.err.end(), '\n') == 1);
        CHECK(ran.err.find("subject.file.nose_tip_m") != std::string::npos);
    }
}
