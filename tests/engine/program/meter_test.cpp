// The meter's commands: lists of readings in and out, falloff, and refusals.
#include "support/helpers/run.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

namespace {

using Json = nlohmann::json;

const std::string a_set =
    std::string(KEYSTEAD_SOURCE_DIR) + "/assets/sets/harbour-choir-short.json";

} // namespace

TEST_CASE("Measured readings from a list are compared and written into a set", "[program][meter]") {
    const std::string folder = testing::scratch_folder("meter");
    testing::write_text(folder + "/list.txt", "# by hand\nkey f/8 + 3/10\nkey 5.6 dome at face\n");
    const auto ran = testing::keystead("meter '" + a_set + "' --json --measured '" + folder +
                                       "/list.txt' --into '" + folder + "/out.json'");
    INFO(ran.err);
    REQUIRE(ran.status == 0);
    const Json json = Json::parse(ran.out);
    REQUIRE(json["measured"]["rows"].size() == 2);
    CHECK(json["measured"]["rows"][0]["measured_f_number"].get<double>() ==
          Approx(8.0 * std::exp2(0.15)).epsilon(1e-4));
    CHECK(json["measured"]["corrections"][0]["readings"] == 2);
    CHECK(json["meter"][0]["id"] == "face");
    const Json set = Json::parse(testing::read_text(folder + "/out.json"));
    CHECK(set["measured"].size() == 2);

    // Calibrated by one reading, the set agrees with the meter.
    testing::write_text(folder + "/one.txt", "key f/8 + 3/10\n");
    const auto taken = testing::keystead("meter '" + a_set + "' --measured '" + folder +
                                         "/one.txt' --into '" + folder + "/cal.json' --calibrate");
    REQUIRE(taken.status == 0);
    const auto again = testing::keystead("meter '" + folder + "/cal.json' --json");
    CHECK(std::abs(Json::parse(again.out)["measured"]["corrections"][0]["stops"].get<double>()) <
          0.02);
}

TEST_CASE("A wrong line is named and nothing is written", "[program][meter]") {
    const std::string folder = testing::scratch_folder("meter-bad");
    testing::write_text(folder + "/list.txt", "key f/8\nkey 8.7\n");
    const auto ran = testing::keystead("meter '" + a_set + "' --measured '" + folder +
                                       "/list.txt' --into '" + folder + "/out.json'");
    CHECK(ran.status == 2);
    CHECK(ran.out.empty());
    CHECK(ran.err.find("line 2: \"key 8.7\"") != std::string::npos);
    CHECK(testing::read_text(folder + "/out.json").empty());
    const auto nowhere = testing::keystead("meter '" + a_set + "' --at chin");
    CHECK(nowhere.status == 2);
    CHECK(nowhere.err.find("this set has face") != std::string::npos);
}

TEST_CASE("Falloff prints the predicted readings beside the rule", "[program][meter]") {
    const auto ran = testing::keystead("falloff '" + a_set +
                                       "' --light key --from 1 --to 3 --read f/8 --at 1.5 --json");
    INFO(ran.err);
    REQUIRE(ran.status == 0);
    const Json json = Json::parse(ran.out);
    REQUIRE(json["rows"].size() == 9);
    CHECK(json["rows"][2]["f_number"].get<double>() == Approx(8.0).epsilon(1e-3));
    CHECK(json["rows"][0]["stops_from_rule"].get<double>() < 0.0);
    CHECK(testing::keystead("falloff '" + a_set + "' --light rim").status == 2);
    CHECK(testing::keystead("falloff '" + a_set + "' --light key --from 3 --to 1").status == 2);
    CHECK(testing::keystead("falloff '" + a_set + "' --light key --read 8.7").status == 2);
}
