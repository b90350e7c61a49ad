// Questions people ask about stands, with the answers worked out by hand from plain statics.
// Common practice for the situations; the numbers are ours and rounded as a person would: lengths
// within 1 cm, angles 0.5 deg, forces and moments 5 %.
#include "sim/support/rig.h"
#include "sim/support/stability.h"

#include <catch2/catch.hpp>

using namespace keystead;
using rig::bag;

namespace {

constexpr double over_leg_deg = 0.0;
constexpr double between_legs_deg = 60.0;

/// A grip stand with all of its mass at one height, feet at 0.50 m, a hub low enough to hang a bag
/// at 0.15 m; nothing on it yet.
Light bare_stand(double mass_kg, double com_height_m, double load_kg, double top_m) {
    Light light;
    light.support.base.mass_kg = mass_kg;
    light.support.base.com_height_m = com_height_m;
    light.support.base.hub_height_m = 0.15;
    light.support.base.foot_radius_m = 0.50;
    light.support.column.mass_kg = 0.0;
    light.support.column.height_m = top_m;
    light.head.mass_kg = load_kg;
    light.modifier.mass_kg = 0.0;
    return light;
}

/// 5 kg stand, 3.5 kg on an arm 0.9 m out at 2.2 m.
Light overhung(double arm_turn_deg, std::vector<Bag> bags = {}) {
    Light light = bare_stand(5.0, 0.6, 3.5, 2.2);
    rig::add_arm(light, 0.9, 0.9, 0.0, 0.0, arm_turn_deg);
    light.support.bags = std::move(bags);
    return light;
}

Stability review(const Light& light) {
    return rig::assess_at(light, {0.0, 1.6, 5.0});
}

double push_at_2m(const Stability& s) {
    return push_to_tip_n(s.mass_kg, s.margin_m, 2.0);
}

bool mentions(const Stability& s, const std::string& words) {
    for (const std::string& reason : s.reasons)
        if (reason.find(words) != std::string::npos) return true;
    return false;
}

} // namespace

TEST_CASE("A leg under the load is no guarantee: a slight sideways push still tips it", "[cases]") {
    const Stability over_leg = review(overhung(over_leg_deg));
    CHECK(glm::length(plan(over_leg.com_m)) == Approx(0.371).margin(0.01));
    CHECK(over_leg.margin_m == Approx(0.065).margin(0.01));
    CHECK(push_at_2m(over_leg) == Approx(2.7).epsilon(0.05));
    CHECK(over_leg.verdict != Verdict::stable);
}

TEST_CASE("The same load between two legs falls by itself, and toward the load", "[cases]") {
    const Stability between = review(overhung(between_legs_deg));
    CHECK(between.margin_m == Approx(-0.121).margin(0.01));
    CHECK(between.verdict == Verdict::unstable);
    CHECK(between.tip_angle_deg < 0.0);
    CHECK(between.push_to_tip_n == 0.0);
    CHECK(between.tip_direction_deg == Approx(60.0));
    CHECK(mentions(between, "0.12 m outside the feet"));
}

TEST_CASE("A bag does least on the lead leg, more on the column, most on the rear legs",
          "[cases]") {
    const Stability lead = review(overhung(0.0, {bag(7.0, BagPlace::leg, 0, 0.30)}));
    const Stability column = review(overhung(0.0, {bag(7.0, BagPlace::column)}));
    const Stability rear =
        review(overhung(0.0, {bag(3.5, BagPlace::leg, 1, 0.30), bag(3.5, BagPlace::leg, 2, 0.30)}));
    CHECK(lead.margin_m == Approx(0.081).margin(0.01));
    CHECK(column.margin_m == Approx(0.148).margin(0.01));
    CHECK(rear.margin_m == Approx(0.182).margin(0.01));
    CHECK(push_at_2m(lead) == Approx(6.1).epsilon(0.05));
    CHECK(push_at_2m(column) == Approx(11.3).epsilon(0.05));
    CHECK(push_at_2m(rear) == Approx(13.9).epsilon(0.05));
}

TEST_CASE("Asked where the bag goes, the answer is computed and not recited", "[cases]") {
    const Stability s = review(overhung(over_leg_deg));
    // The rear two legs share it best; with one bag the column beats the lead leg.
    CHECK(s.bag_split.place == "leg 2 and leg 3");
    CHECK(s.bag_least.place == "column");
    CHECK(s.bag_split.mass_kg < s.bag_least.mass_kg);
    CHECK(s.bag_there.place != "column");
}

TEST_CASE("A bag resting on the floor counts as nothing", "[cases]") {
    const Stability none = review(overhung(over_leg_deg));
    const Stability resting =
        review(overhung(over_leg_deg, {bag(7.0, BagPlace::leg, 1, 0.30, false)}));
    CHECK(resting.margin_m == none.margin_m);
    CHECK(resting.mass_kg == none.mass_kg);
    CHECK(resting.push_to_tip_n == none.push_to_tip_n);
    CHECK(mentions(resting, "rests on the floor and counts as nothing"));
}

TEST_CASE("A tall centred stand tips easily although nothing is off centre", "[cases]") {
    const Stability bare = review(bare_stand(5.0, 0.8, 3.5, 2.4));
    CHECK(bare.margin_m == Approx(0.25).margin(0.01));
    CHECK(bare.com_m.y == Approx(1.46).margin(0.01));
    CHECK(bare.tip_angle_deg == Approx(9.7).margin(0.5));
    CHECK(bare.push_height_m == Approx(2.4));
    CHECK(bare.push_to_tip_n == Approx(8.7).epsilon(0.05));
    CHECK(bare.verdict == Verdict::caution);
}

TEST_CASE("A bag low on a tall stand raises tilt and push as computed", "[cases]") {
    Light light = bare_stand(5.0, 0.8, 3.5, 2.4);
    light.support.bags = {bag(7.0, BagPlace::column)};
    const Stability bagged = review(light);
    CHECK(bagged.com_m.y == Approx(0.87).margin(0.01));
    CHECK(bagged.tip_angle_deg == Approx(16.1).margin(0.5));
    CHECK(bagged.push_to_tip_n == Approx(15.8).epsilon(0.05));
}

TEST_CASE("The boom's own mass belongs in the counterweight", "[cases]") {
    // 2.5 kg at 1.4 m; boom 2 kg with its middle 0.3 m forward; the weight rides at 0.6 m.
    Light light = bare_stand(8.0, 0.4, 2.5, 2.2);
    rig::add_arm(light, 1.4, 2.2, 2.0);
    light.support.arm->counterweight = rig::counterweight(4.5, 0.6);
    light.support.load_limit_kg = 15.0;
    const Stability light_weight = review(light);
    CHECK(light_weight.counterweight_needed_kg == Approx(6.8).epsilon(0.05));
    CHECK(light_weight.counterweight_needed_kg > 5.83 * 1.05); // without the boom's own mass
    CHECK(light_weight.balance_nm == Approx(1.4 * gravity_m_s2).epsilon(0.05));
    CHECK(light_weight.grip_torque_nm == Approx(1.4 * gravity_m_s2).epsilon(0.05));

    light.support.arm->counterweight->mass_kg = light_weight.counterweight_needed_kg;
    const Stability balanced = review(light);
    CHECK(std::abs(balanced.balance_nm) < 1e-9);
    CHECK(balanced.load_kg == Approx(11.3).epsilon(0.05));
    // Balanced about the pivot, the load stands over the column: the margin is the base's own.
    CHECK(balanced.margin_m == Approx(0.25).margin(1e-9));
}

TEST_CASE("A raised boom balances with the same counterweight as a level one", "[cases]") {
    // Both levers shrink with the cosine of the rise.
    Light light = bare_stand(8.0, 0.4, 2.5, 2.2);
    rig::add_arm(light, 1.4, 2.2, 2.0, 35.0);
    light.support.arm->counterweight = rig::counterweight(4.5, 0.6);
    const double needed_kg = review(light).counterweight_needed_kg;
    CHECK(needed_kg == Approx((2.5 * 1.4 + 2.0 * 0.3) / 0.6));
    light.support.arm->counterweight->mass_kg = needed_kg;
    CHECK(std::abs(review(light).balance_nm) < 1e-9);
}

TEST_CASE("A boom without its counterweight asks for one; a plain grip arm does not", "[cases]") {
    Light light = bare_stand(8.0, 0.4, 2.5, 2.2);
    rig::add_arm(light, 1.4, 2.2, 2.0);
    CHECK(review(light).counterweight_needed_kg == 0.0);
    light.support.kind = SupportKind::boom;
    // At the tail's end, 0.8 m behind the pivot.
    CHECK(review(light).counterweight_needed_kg == Approx((2.5 * 1.4 + 2.0 * 0.3) / 0.8));
}

TEST_CASE("Rated load includes light, arm and counterweight", "[cases]") {
    Light light = bare_stand(8.0, 0.4, 2.5, 2.2);
    rig::add_arm(light, 1.4, 2.2, 2.0);
    light.support.arm->counterweight = rig::counterweight(6.83, 0.6);
    light.support.load_limit_kg = 12.0;
    const Stability s = review(light);
    CHECK(s.verdict != Verdict::stable);
    CHECK(mentions(s, "The stand carries 11.3 kg of the 12.0 kg"));
}

TEST_CASE("Knob on the operator's right and load ahead: gravity tightens", "[cases]") {
    Light light = overhung(over_leg_deg);
    light.support.arm->knob_on_right = true;
    CHECK(review(light).knuckle == Knuckle::tightens);
    light.support.arm->knob_on_right = false;
    const Stability loosening = review(light);
    CHECK(loosening.knuckle == Knuckle::loosens);
    CHECK(mentions(loosening, "Gravity loosens the clamp"));
    // A tail heavier than the load turns the arm the other way.
    light.support.arm->length_m = 1.8;
    light.support.arm->counterweight = rig::counterweight(6.0, 0.85);
    CHECK(review(light).knuckle == Knuckle::tightens);
}

TEST_CASE("A vertical arm and a light without an arm load no knuckle", "[cases]") {
    Light light = bare_stand(5.0, 0.6, 3.5, 2.2);
    CHECK(review(light).knuckle == Knuckle::none);
    CHECK(review(light).grip_torque_nm == 0.0);
    rig::add_arm(light, 0.9, 0.9, 1.0, 90.0);
    CHECK(review(light).knuckle == Knuckle::none);
}

TEST_CASE("A wide modifier turned sideways twists the arm in its clamp", "[cases]") {
    Light light = overhung(over_leg_deg);
    light.modifier.mass_kg = 2.0;
    light.modifier.com_ahead_m = 0.30;
    const double arm_azimuth_deg = light.support.base.turn_deg;
    REQUIRE(arm_azimuth_deg == 0.0);
    const Stability sideways = rig::assess_at(light, {50.0, 2.2, 0.9});
    CHECK(sideways.twist_nm == Approx(2.0 * gravity_m_s2 * 0.30));
    CHECK(sideways.grip_torque_nm > std::abs(sideways.balance_nm));
}

TEST_CASE("The counterweight comes off before the light only if the stand says so", "[cases]") {
    // A boom between two legs, balanced: without its counterweight it falls, and without its
    // light the counterweight pulls it over backward.
    Light light = bare_stand(8.0, 0.4, 4.0, 2.2);
    rig::add_arm(light, 1.4, 2.2, 2.0, 0.0, between_legs_deg);
    light.support.arm->counterweight = rig::counterweight(10.3, 0.6);
    const Stability s = review(light);
    REQUIRE(s.strike.size() == 2);
    CHECK(s.strike[0].taken_off == "counterweight");
    CHECK(s.strike[0].margin_m < 0.0);
    CHECK(s.strike[0].verdict == Verdict::unstable);
    CHECK(s.strike[1].taken_off == "light");
    const double com_back_m = (10.3 * 0.6 - 2.0 * 0.3) / (8.0 + 2.0 + 10.3);
    // The tail points over a leg: the two edges beside that foot are at (R - r) / 2.
    CHECK(s.strike[1].margin_m == Approx((0.50 - com_back_m) / 2.0));
}

TEST_CASE("A stand with nothing but its light has one thing to strike", "[cases]") {
    const Stability s = review(bare_stand(5.0, 0.6, 3.5, 2.2));
    REQUIRE(s.strike.size() == 1);
    CHECK(s.strike[0].taken_off == "light");
    CHECK(s.strike[0].verdict == Verdict::stable);
    CHECK(s.strike[0].tip_angle_deg > s.tip_angle_deg);
}

TEST_CASE("Taking the light off takes its modifier and grid with it", "[cases]") {
    Light light = bare_stand(5.0, 0.6, 3.5, 2.2);
    light.modifier.mass_kg = 2.0;
    light.modifier.grid = Grid{};
    const SupportPose pose = pose_support(light, rig::at({0.0, 1.6, 5.0}));
    CHECK(sum_masses(without(pose.masses, "light")).mass_kg == Approx(5.0));
    CHECK(sum_masses(without(pose.masses, "counterweight")).mass_kg ==
          Approx(sum_masses(pose.masses).mass_kg));
}

TEST_CASE("A bag outside the feet has a least and a most mass, or no mass does it", "[cases]") {
    // Feet lines at x = +-0.25 m; 5 kg in the middle, 3 kg at +1.0 m; the bag hangs at -1.0 m.
    PolygonEdge right, left;
    right.from_m = {0.25, 0.0};
    right.outward = {1.0, 0.0};
    left.from_m = {-0.25, 0.0};
    left.outward = {-1.0, 0.0};
    const auto needed = [&](double stand_kg, double left_demand_kg_m) {
        return mass_to_hold_kg(
            {rig::mass(stand_kg, Vec3(0.0)), rig::mass(3.0, Vec3(1.0, 0.0, 0.0))},
            {Vec3(-1.0, 0.0, 0.0)}, {{right, 0.0, 0.0}, {left, 0.0, left_demand_kg_m}}, 0.0);
    };
    // Right edge: 5·0.25 - 3·0.75 + m·1.25 >= 0, so m >= 0.8. Left: 1.25 + 3.75 - m·0.75 >= demand.
    REQUIRE(needed(5.0, 0.0));
    CHECK(*needed(5.0, 0.0) == Approx(0.8));
    CHECK(needed(5.0, 4.39));       // up to 0.813 kg
    CHECK_FALSE(needed(5.0, 4.41)); // up to 0.787 kg
    CHECK(*needed(20.0, 0.0) == 0.0);
}

TEST_CASE("A fall is described from where the photographer stands", "[cases]") {
    Light light = overhung(over_leg_deg);
    light.support.base.position_m = {1.5, 0.0};
    light.support.base.turn_deg =
        90.0 + 180.0 - 60.0; // the load between two legs, over the subject
    light.support.arm->turn_deg = between_legs_deg;
    CHECK(mentions(rig::assess_at(light, {0, 1.5, 0}), "Falls toward the subject"));
    light.support.base.turn_deg = -60.0;
    CHECK(mentions(rig::assess_at(light, {0, 1.5, 0}), "Falls toward the camera"));
    light.support.base.turn_deg = 90.0 - 60.0;
    CHECK(mentions(rig::assess_at(light, {0, 1.5, 0}), "Falls toward camera right"));
}
