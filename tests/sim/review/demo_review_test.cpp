// What the example sets must come out as.
#include "tests/sim/review/bench_sets.h"

#include "sim/set/json_text.h"
#include "sim/set/set_json.h"

#include <catch2/catch.hpp>

using namespace keystead;
using namespace bench;

namespace {

/// The bag that the report asks for, hung where it says.
void hang_reported_bag(Light& light, const Json& support) {
    Bag bag;
    bag.mass_kg = support["bag_needed_kg"].get<double>();
    if (bag.mass_kg <= 0.0) return;
    const std::string place = support["bag_place"].get<std::string>();
    bag.place = place == "tail"     ? BagPlace::tail
                : place == "column" ? BagPlace::column
                                    : BagPlace::leg;
    if (bag.place == BagPlace::leg) {
        bag.leg = std::stoi(place.substr(4)) - 1;
        bag.at_m = support["bag_at_m"].get<double>();
    }
    light.support.bags.push_back(bag);
}

Json reported_support(const Set& set) {
    return parse_json(review_json(quick_review(set))).value()["supports"][0];
}

} // namespace

TEST_CASE("Overreach is unstable, and a danger", "[review][demo]") {
    const Review review = quick_review(demo("overreach.json"));
    CHECK(support_of(review, "key").stability.verdict == Verdict::unstable);
    REQUIRE(finding(review, "support-unstable", "key"));
    CHECK(finding(review, "support-unstable", "key")->level == Level::danger);
    CHECK(review.findings.front().level == Level::danger);
}

TEST_CASE("Adding the counterweight and the bag that the report asks for makes overreach stable",
          "[review][demo]") {
    Set set = demo("overreach.json");
    Light& key = set.lights[0];
    const Json before = reported_support(set);
    CHECK(before["verdict"] == "unstable");
    REQUIRE(before["counterweight_needed_kg"].get<double>() > 0.0);
    Counterweight counterweight;
    counterweight.mass_kg = before["counterweight_needed_kg"].get<double>();
    counterweight.place_m = counterweight_place_m(key.support);
    key.support.arm->counterweight = counterweight;
    CHECK(std::abs(support_of(quick_review(set), "key").stability.balance_nm) < 1.0);
    // Both figures from the one report: its bag is the one needed beside the counterweight.
    CHECK(before["bag_beside_counterweight"] == true);
    hang_reported_bag(key, before);
    CHECK(reported_support(set)["verdict"] == "stable");
}

TEST_CASE("The choir's key is short in one set and broad in the other, else the same",
          "[review][demo]") {
    const Review lit_short = quick_review(demo("harbour-choir-short.json"));
    const Review lit_broad = quick_review(demo("harbour-choir-broad.json"));
    CHECK(lit_short.portrait.key == "key");
    CHECK(lit_broad.portrait.key == "key");
    CHECK(lit_short.portrait.side == Side::short_side);
    CHECK(lit_broad.portrait.side == Side::broad_side);
    CHECK(lit_short.portrait.pattern == lit_broad.portrait.pattern);
    const LightReview &a = light_of(lit_short, "key"), &b = light_of(lit_broad, "key");
    CHECK(a.distance_to_face_m == Approx(b.distance_to_face_m).margin(0.01));
    CHECK(*a.f_number == Approx(*b.f_number).epsilon(0.01));
    CHECK(a.face_angles.azimuth_deg == Approx(-b.face_angles.azimuth_deg).margin(1.0));
    CHECK(a.face_angles.elevation_deg == Approx(b.face_angles.elevation_deg).margin(1.0));
}

TEST_CASE("The sets that are meant well have stands that stand and no gear in the picture",
          "[review][demo]") {
    for (const char* name : {"harbour-choir-short.json", "harbour-choir-broad.json",
                             "lantern-maker.json", "attic-tailor.json"}) {
        const Review review = quick_review(demo(name));
        INFO(name);
        for (const SupportReview& support : review.supports) {
            INFO(support.id);
            CHECK(support.stability.verdict == Verdict::stable);
        }
        CHECK(review.frame.empty());
        for (const Finding& f : review.findings) {
            INFO(f.about << ": " << f.message);
            CHECK(f.level == Level::note);
        }
        for (const RoomReview& room : review.room) CHECK(room.clearance_m > 0.0);
        REQUIRE(review.exposure.stops_off);
        CHECK(std::abs(*review.exposure.stops_off) < 0.34);
    }
}

TEST_CASE("The night baker's dark hair is lost in the cloth, and nothing else is wrong",
          "[review][demo]") {
    const Review review = quick_review(demo("night-baker.json"));
    for (const SupportReview& support : review.supports)
        CHECK(support.stability.verdict == Verdict::stable);
    int lost = 0;
    for (const Finding& f : review.findings) {
        INFO(f.about << ": " << f.message);
        if (f.level == Level::note) continue;
        CHECK(f.about == "subject");
        CHECK(f.message.find("merges") != std::string::npos);
        ++lost;
    }
    CHECK(lost > 0);
    CHECK(review.separation.front().place == "head_top");
    CHECK(review.separation.front().verdict == "merges");
}

TEST_CASE("The first remedy for the night baker's hair parts it from the cloth", "[review][demo]") {
    const Set set = demo("night-baker.json");
    ReviewMemory memory;
    const Review lost =
        review_set(*studio_of(set), {.margins = false, .searches = true, .bounce = false}, &memory);
    const Finding* merges = finding(lost, "hair-merges");
    REQUIRE(merges);
    REQUIRE_FALSE(merges->mend.edits.empty());
    const Set better = mended(set, *merges);
    REQUIRE(better.lights.size() == set.lights.size() + 1);
    const Review parted = quick_review(better);
    for (const SeparationReview& s : parted.separation) {
        INFO(s.place << " " << s.difference_stops << " stops, L* " << s.difference_lstar);
        if (s.place.rfind("hair", 0) == 0 || s.place == "head_top") CHECK(s.verdict == "parts");
    }
    const Finding* left = finding(parted, "hair-merges"); // weak somewhere, at most
    CHECK((left == nullptr || left->level == Level::note));
    // And the new light stands, is out of the picture and off the lens.
    const std::string id = better.lights.back().id;
    CHECK(support_of(parted, id).stability.verdict == Verdict::stable);
    CHECK_FALSE(finding(parted, "in-frame", id));
    CHECK_FALSE(finding(parted, "light-into-lens", id));
    for (const RoomReview& room : parted.room) CHECK(room.clearance_m > 0.0);
    // What leaves the sitter alone casts no search.
    CHECK(finding(quick_review(set), "hair-merges")->mend.edits.empty());
}

TEST_CASE("The mended night baker is the night baker with that remedy", "[review][demo]") {
    // As the command line prints it, with light by way of walls.
    const Set set = demo("night-baker.json"), better = demo("night-baker-mended.json");
    ReviewMemory memory;
    const Review lost = review_set(*studio_of(set), {.margins = false, .searches = true}, &memory);
    const Finding* merges = finding(lost, "hair-merges");
    REQUIRE(merges);
    CHECK(light_to_json(mended(set, *merges).lights.back()) == light_to_json(better.lights.back()));
    for (const SeparationReview& s :
         review_set(*studio_of(better), {.margins = false}, &memory).separation) {
        INFO(s.place << " " << s.difference_stops << " stops");
        if (s.place.rfind("hair", 0) == 0 || s.place == "head_top") CHECK(s.verdict == "parts");
    }
    const Review review = quick_review(better);
    CHECK(review.separation.front().place == "head_top");
    CHECK(review.separation.front().verdict == "parts");
    for (const SupportReview& support : review.supports)
        CHECK(support.stability.verdict == Verdict::stable);
    for (const Finding& f : review.findings) {
        INFO(f.about << ": " << f.message);
        CHECK(f.level == Level::note);
    }
}

TEST_CASE("The lantern maker's emitting faces are within 3 cm of their plan", "[review][demo]") {
    // Source: the set's own plan, light centres in the room.
    const Vec3 wanted[] = {{-0.474, 1.996, 0.937},
                           {0.06, 0.66, 0.78},
                           {-1.435, 1.624, -0.990},
                           {-1.98, 1.78, -0.62},
                           {1.75, 1.78, -0.55}};
    const Review review = quick_review(demo("lantern-maker.json"));
    REQUIRE(review.lights.size() == 5);
    for (std::size_t i = 0; i < 5; ++i) {
        INFO(review.lights[i].id);
        CHECK(glm::length(review.lights[i].position_m - wanted[i]) < 0.03);
    }
}
