// What two sets have not in common, against the edit that made them differ.
#include "sim/review/difference.h"
#include "sim/set/set_io.h"
#include "tests/sim/review/bench_sets.h"

#include <algorithm>
#include <catch2/catch.hpp>

using namespace keystead;

namespace {

const Difference* line_of(const std::vector<Difference>& table, const std::string& what) {
    const auto found = std::find_if(table.begin(), table.end(),
                                    [&](const Difference& line) { return line.what == what; });
    return found != table.end() ? &*found : nullptr;
}

struct Half {
    Set set;
    Review review;
    explicit Half(const Set& from)
        : set(from)
        , review(review_set(*make_studio(from), {.margins = false})) {}
    Reviewed reviewed() const { return {set, review}; }
};

} // namespace

TEST_CASE("A set differs from itself in nothing", "[difference]") {
    const Half side(bench::demo("harbour-choir-short.json"));
    for (const Difference& line : differences(side.reviewed(), side.reviewed())) {
        CHECK(line.same());
        CHECK(line.change.empty());
    }
}

TEST_CASE("A stop less and a head turned are said, and what they do", "[difference]") {
    const Set set = bench::demo("harbour-choir-short.json");
    Set edited = set;
    edited.lights[0].head.power_stops_below += 1.0;
    edited.subject.head_nod_deg += 4.0;
    const Half before(set), after(edited);
    const std::vector<Difference> table = differences(before.reviewed(), after.reviewed());
    const std::string id = set.lights[0].id;
    const Difference* power = line_of(table, id + ": power below full");
    REQUIRE(power != nullptr);
    CHECK(power->change == "+1.0 stops");
    const Difference* reads = line_of(table, id + ": reads alone");
    REQUIRE(reads != nullptr);
    CHECK(reads->change == "−1.0 stops");
    const Difference* chin = line_of(table, "Chin up");
    REQUIRE(chin != nullptr);
    CHECK(chin->change == "+4°");
    CHECK(line_of(table, id + ": base, toward the camera") == nullptr);
    CHECK(line_of(table, "Side") != nullptr);
}

TEST_CASE("A light that one set lacks is said to be missing", "[difference]") {
    const Set set = bench::demo("harbour-choir-short.json");
    Set fewer = set;
    const std::string gone = fewer.lights.back().id;
    fewer.lights.pop_back();
    const Half before(set), after(fewer);
    const std::vector<Difference> table = differences(before.reviewed(), after.reviewed());
    const Difference* line = line_of(table, gone);
    REQUIRE(line != nullptr);
    CHECK(line->first == "there");
    CHECK(line->second == "none");
    const std::string text = differences_text(table, "one", "two");
    CHECK(text.find("one") < text.find("two"));
    CHECK(std::count(text.begin(), text.end(), '\n') == static_cast<long>(table.size()) + 1);
}
