// What every assistant knows about stands must come out by itself from the catalogue's typical
// gear. Common practice; no published source.
#include "sim/support/advice.h"
#include "sim/support/random_support.h"
#include "sim/support/rig.h"

#include <catch2/catch.hpp>

using namespace keystead;

namespace {

template <class T>
const T& gear(const std::vector<CatalogueEntry<T>>& entries, const char* id) {
    const CatalogueEntry<T>* entry = find_entry(entries, id);
    if (entry == nullptr) throw std::runtime_error(std::string("no catalogue entry ") + id);
    return entry->value;
}

const Vec3 face_m(0.0, 1.6, 0.0);

/// In front of the subject, its first leg under the load, column at `height_m`.
Light light_on(const char* support, const char* head, const char* modifier, double height_m) {
    Light light;
    light.support = gear(catalogue().supports, support);
    light.support.base.position_m = {0.0, 1.2};
    light.support.base.turn_deg = 180.0;
    light.support.column.height_m = height_m;
    light.head = gear(catalogue().heads, head);
    light.modifier = gear(catalogue().modifiers, modifier);
    return light;
}

/// A light head boomed over 0.6 m out over the subject on a grip arm.
Light boomed_on(const char* support) {
    Light light = light_on(support, "monolight-200", "reflector-18", 2.2);
    light.support.arm = gear(catalogue().arms, "grip-arm-100");
    light.support.arm->reach_m = 0.65;
    light.support.arm->rise_deg = 20.0;
    return light;
}

Stability review(const Light& light) {
    return rig::assess_at(light, face_m);
}

} // namespace

TEST_CASE("At one height a century stand beats a light stand, and a roller beats both",
          "[practice]") {
    const auto at_two_metres = [](const char* support) {
        return review(light_on(support, "monolight-400", "softbox-60x90", 2.0));
    };
    const Stability standard = at_two_metres("standard-30");
    const Stability century = at_two_metres("century-40");
    const Stability roller = at_two_metres("roller-27");
    CHECK(standard.tip_angle_deg < century.tip_angle_deg);
    CHECK(century.tip_angle_deg < roller.tip_angle_deg);
    CHECK(standard.push_to_tip_n < century.push_to_tip_n);
    CHECK(century.push_to_tip_n < roller.push_to_tip_n);
    CHECK(standard.verdict != Verdict::stable);
}

TEST_CASE("A low stand at its own height beats every tall one at theirs", "[practice]") {
    const Stability low = review(light_on("low-90", "monolight-400", "softbox-60x90", 0.45));
    for (const char* tall : {"standard-30", "century-40", "roller-27"}) {
        const Stability s = review(light_on(tall, "monolight-400", "softbox-60x90", 2.0));
        INFO(tall);
        CHECK(low.tip_angle_deg > s.tip_angle_deg);
        CHECK(low.push_to_tip_n > s.push_to_tip_n);
    }
}

TEST_CASE("Boomed well out, a light stand is flagged and a bagged century stand is not",
          "[practice]") {
    const Stability standard = review(boomed_on("standard-24"));
    CHECK(standard.verdict == Verdict::unstable);
    REQUIRE_FALSE(standard.reasons.empty());

    const Light century = boomed_on("century-40");
    const Stability bare = review(century);
    CHECK(bare.verdict != Verdict::stable);
    REQUIRE_FALSE(bare.bag_least.place.empty());
    const Stability bagged =
        review(rig::with_ballast({century, face_m}, bare.bag_least, 1.0).light);
    CHECK(bagged.verdict == Verdict::stable);
    CHECK(bagged.knuckle == Knuckle::tightens);
    INFO("asked for " << bare.bag_least.mass_kg << " kg on the " << bare.bag_least.place);
    CHECK(bare.bag_least.mass_kg < 20.0);
}

TEST_CASE("On a wheeled boom stand with its counterweight the light balances and still rolls",
          "[practice]") {
    Light light = light_on("boom-roller-200", "monolight-400", "reflector-18", 2.3);
    REQUIRE(light.support.arm);
    REQUIRE(light.support.arm->counterweight);
    light.support.arm->counterweight->mass_kg = review(light).counterweight_needed_kg;
    const Stability s = review(light);
    CHECK(std::abs(s.balance_nm) < 1e-6);
    CHECK(s.verdict == Verdict::stable);
    // At a walk (0.8 m/s and more) it would go over at a cable: the figure must say so.
    CHECK(s.snag_speed_m_s > 0.3);
    CHECK(s.snag_speed_m_s < 0.8);
    // Lowered, it may be moved faster.
    light.support.column.height_m = light.support.column.min_height_m;
    CHECK(review(light).snag_speed_m_s > s.snag_speed_m_s);
}

TEST_CASE("A growing soft source on a bagged light stand reaches caution, and the next stand up "
          "holds it",
          "[practice]") {
    const auto on_standard = [](const char* modifier) {
        Light light = light_on("standard-24", "monolight-200", modifier, 2.4);
        light.support.bags = {rig::bag(22.0, BagPlace::column)};
        return light;
    };
    CHECK(review(on_standard("softbox-60x60")).verdict == Verdict::stable);
    Verdict last = Verdict::stable;
    for (const char* modifier : {"octa-90", "octa-120", "octa-150"}) {
        const Light light = on_standard(modifier);
        const Stability s = review(light);
        INFO(modifier);
        CHECK(s.verdict >= Verdict::caution);
        CHECK(s.verdict >= last); // larger is never better
        last = s.verdict;
        const auto next = next_support_up(light, rig::at(face_m), {}, catalogue());
        REQUIRE(next);
        const rig::RandomLight moved{moved_to(light, gear(catalogue().supports, next->id.c_str())),
                                     face_m};
        CHECK(review(rig::with_ballast(moved, next->bag, 1.0).light).verdict == Verdict::stable);
    }
}

TEST_CASE("At full height without a bag a larger soft source takes a light stand past caution",
          "[practice]") {
    const auto at_full_height = [](const char* modifier) {
        return review(light_on("standard-30", "monolight-200", modifier, 3.0));
    };
    CHECK(at_full_height("softbox-60x60").verdict == Verdict::caution);
    CHECK(at_full_height("octa-120").verdict == Verdict::unstable);
    CHECK(at_full_height("octa-150").tip_angle_deg < at_full_height("octa-120").tip_angle_deg);
}

TEST_CASE("Without bags a light stand at full height wants a stand up or a heavy bag",
          "[practice]") {
    const Light light = light_on("standard-24", "monolight-200", "octa-90", 2.44);
    const Stability s = review(light);
    CHECK(s.verdict == Verdict::unstable);
    const auto next = next_support_up(light, rig::at(face_m), {}, catalogue());
    REQUIRE(next);
    CHECK(next->bag.mass_kg <= handy_bag_kg);
    CHECK(next->bag.mass_kg < s.bag_least.mass_kg);
}
