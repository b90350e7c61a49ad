// Names of a key and a second light together. Source: common practice.
#include "sim/portrait/pair.h"

#include <catch2/catch.hpp>
#include <string>

using namespace keystead;

TEST_CASE("A key above and a fill below on the middle of the face is a clamshell", "[portrait]") {
    CHECK(pair_of({0, 40}, {{0, -40}, 40, -1}) == Pair::clamshell);
    CHECK(pair_of({-8, 30}, {{10, -25}, 30, -2}) == Pair::clamshell);
    CHECK(pair_of({45, 40}, {{0, -40}, 40, -1}) == Pair::none); // the key to one side
    CHECK(pair_of({0, 40}, {{45, -20}, 50, -1}) == Pair::none); // the fill to one side
    CHECK(pair_of({0, 40}, {{0, -40}, 40, -6}) == Pair::none);  // too weak to count
    CHECK(std::string(name_of(Pair::clamshell)) == "clamshell");
}

TEST_CASE("A second light at the lens is fill on the axis, wherever the head turns", "[portrait]") {
    CHECK(pair_of({40, 35}, {{-30, 2}, 6, -2}) == Pair::fill_on_axis);
    CHECK(pair_of({40, 35}, {{-30, 2}, 30, -2}) == Pair::none);
}

TEST_CASE("Behind and level it is a kicker, behind and high a hair light", "[portrait]") {
    CHECK(pair_of({40, 35}, {{-140, 5}, 140, 0}) == Pair::key_and_kicker);
    CHECK(pair_of({40, 35}, {{-170, 60}, 120, 0}) == Pair::key_and_hair);
    CHECK(std::string(name_of(Pair::none)).empty());
}
