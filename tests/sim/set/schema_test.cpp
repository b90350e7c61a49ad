#include "sim/set/set_schema.h"

#include "sim/set/json_text.h"

#include <catch2/catch.hpp>
#include <fstream>
#include <sstream>

using namespace keystead;

namespace {
const char* const schema_file = KEYSTEAD_SOURCE_DIR "/assets/set.schema.json";
}

TEST_CASE("The schema in assets is the one the field lists make", "[set][schema]") {
    std::ifstream stream(schema_file);
    std::ostringstream text;
    text << stream.rdbuf();
    INFO("to renew it: keystead_sim_tests \"[.write-schema]\"");
    CHECK(text.str() == set_schema_text());
}

TEST_CASE("Write the schema file", "[.write-schema]") {
    std::ofstream(schema_file) << set_schema_text();
    SUCCEED();
}

TEST_CASE("The schema describes every part of the document with its ranges", "[set][schema]") {
    const auto parsed = parse_json(set_schema_text());
    REQUIRE(parsed);
    const Json& schema = parsed.value();
    CHECK(schema["properties"]["lights"]["items"]["$ref"] == "#/$defs/light");
    CHECK(schema["required"] == Json::array({"format", "version"}));
    const Json& arm = schema["$defs"]["arm"]["properties"];
    CHECK(arm["reach_m"]["maximum"] == 12);
    CHECK(arm["reach_m"]["description"] == "pivot to the light's bracket; m");
    CHECK(schema["$defs"]["light"]["required"] == Json::array({"id"}));
    CHECK(schema["$defs"]["support"]["properties"]["kind"]["enum"].size() == 5);
}
