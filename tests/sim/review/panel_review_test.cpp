// Panels in the review: fill off a white board, nothing off a black one, and stands that tip.
#include "sim/review/review.h"
#include "sim/set/catalogue.h"
#include "tests/sim/set/example_set.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

using namespace keystead;

namespace {

/// A key from camera left and a board close by on the shadow side.
Set with_board(double reflectance) {
    Set set;
    set.background.kind = BackgroundKind::none;
    Light key;
    key.id = "key";
    key.modifier = find_entry(catalogue().modifiers, "octa-90")->value;
    key.support = find_entry(catalogue().supports, "century-40")->value;
    key.support.arm.reset();
    key.support.base.position_m = Vec2(-1.2, 1.2);
    key.support.column.height_m = 2.0;
    set.lights.push_back(key);
    Panel board;
    board.id = "board";
    board.kind = PanelKind::reflector;
    board.width_m = 1.0;
    board.height_m = 1.2;
    board.position_m = Vec3(0.7, 0.9, 0.2);
    board.turn_deg = -90.0;
    board.reflectance = Reflectance{Vec3(reflectance)};
    set.panels.push_back(board);
    return set;
}

Review reviewed(const Set& set) {
    ReviewOptions quick;
    quick.margins = false;
    quick.bounce = false; // as in a black room: the panel alone throws light back
    return review_set(*make_studio(set), quick);
}

} // namespace

TEST_CASE("A white board on the shadow side fills, a black one does not", "[review][panels]") {
    const Review white = reviewed(with_board(0.85)), black = reviewed(with_board(0.03));
    REQUIRE(white.panels.size() == 1);
    CHECK(white.panels[0].mostly_from == "key");
    REQUIRE(white.panels[0].stops_from_key.has_value());
    REQUIRE(black.panels[0].stops_from_key.has_value());
    // Light off a matt board goes with its reflectance.
    CHECK(*white.panels[0].stops_from_key - *black.panels[0].stops_from_key ==
          Approx(std::log2(0.85 / 0.03)).margin(1e-3));
    // A board beside the face that sees the key aslant: two to five stops under it.
    CHECK(*white.panels[0].stops_from_key < -2.0);
    CHECK(*white.panels[0].stops_from_key > -5.0);
    REQUIRE(white.exposure.ratio_key_to_fill.has_value());
    CHECK(*white.exposure.ratio_key_to_fill ==
          Approx(std::exp2(-*white.panels[0].stops_from_key)).epsilon(0.01));
    CHECK(review_text(white).find("Panels\n") != std::string::npos);
    CHECK(review_json(white).find("\"mostly_from\": \"key\"") != std::string::npos);
}

TEST_CASE("A scrim between key and face lets through its share", "[review][panels]") {
    Set set = with_board(0.0);
    Panel& scrim = set.panels[0];
    scrim.kind = PanelKind::scrim;
    scrim.width_m = scrim.height_m = 1.2;
    scrim.position_m = Vec3(-0.65, 1.1, 0.65);
    scrim.turn_deg = 135.0; // its working side faces the sitter
    scrim.transmission = 0.5;
    const Review half = reviewed(set);
    scrim.transmission = 0.25;
    const Review quarter = reviewed(set);
    REQUIRE(half.exposure.face_f_number.has_value());
    REQUIRE(quarter.exposure.face_f_number.has_value());
    // It hides the key from the face: all light there came through, so half as much is a stop.
    CHECK(2.0 * std::log2(*half.exposure.face_f_number / *quarter.exposure.face_f_number) ==
          Approx(1.0).margin(0.02));
}

TEST_CASE("A flag far out on an arm is judged like a light on one", "[review][panels]") {
    Set set = with_board(0.03);
    Panel& flag = set.panels[0];
    flag.kind = PanelKind::flag;
    flag.mass_kg = 6.0;
    flag.support = find_entry(catalogue().supports, "century-40-arm")->value;
    REQUIRE(flag.support->arm.has_value());
    flag.support->arm->reach_m = flag.support->arm->max_reach_m;
    flag.support->column.height_m = flag.support->column.max_height_m;
    flag.support->base.position_m = Vec2(1.6, 0.2);
    const auto verdict_of = [](const Review& review) {
        const auto found = std::find_if(review.supports.begin(), review.supports.end(),
                                        [](const SupportReview& s) { return s.id == "board"; });
        REQUIRE(found != review.supports.end());
        return found->stability;
    };
    const Stability far_out = verdict_of(reviewed(set));
    flag.mass_kg = 0.5;
    const Stability light_one = verdict_of(reviewed(set));
    CHECK(far_out.verdict != Verdict::stable);
    CHECK(far_out.load_kg - light_one.load_kg == Approx(5.5));
    CHECK(far_out.tip_angle_deg < light_one.tip_angle_deg);
    // A hand calculation of the moment about the pivot: 5.5 kg more at the tip.
    CHECK(far_out.balance_nm - light_one.balance_nm ==
          Approx(5.5 * 9.80665 * flag.support->arm->reach_m).epsilon(0.01));
}
