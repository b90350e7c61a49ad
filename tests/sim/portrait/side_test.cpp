// Angles about the face, the closed form of the nose's shadow, and short, broad, front.
#include "sim/portrait/pattern.h"
#include "support/helpers/checks.h"

#include <catch2/catch.hpp>

using namespace keystead;

namespace {

const Vec3 to_camera(0, 0, 1);

Side side_at(double light_azimuth_deg, double light_elevation_deg, double head_turn_deg) {
    return lit_side(direction_from({light_azimuth_deg, light_elevation_deg}), to_camera,
                    head_rotation(head_turn_deg, 0, 0));
}

} // namespace

TEST_CASE("The tip of the nose throws its shadow where the tangents say", "[portrait]") {
    CHECK_ROW(170, tip_shadow_mm(20, {30, 30}).x);
    CHECK_ROW(171, tip_shadow_mm(20, {30, 30}).y);
    CHECK_ROW(172, tip_shadow_mm(21, {45, 40}).x);
    CHECK_ROW(173, tip_shadow_mm(21, {45, 40}).y);
    CHECK_ROW(174, tip_shadow_mm(20, {0, 45}).y);
}

TEST_CASE("Turning the head away adds to the azimuth that the face sees", "[portrait]") {
    CHECK_ROW(175, face_angles(direction_from({45, 0}), head_rotation(-20, 0, 0)).azimuth_deg);
    CHECK(face_angles(direction_from({45, 30}), head_rotation(45, 30, 0)).elevation_deg ==
          Approx(0).margin(1e-9));
}

TEST_CASE("Nose 30 degrees to camera right: a key at +70 is short, one at -20 broad",
          "[portrait]") {
    // Worked by hand: face-relative +40 lights the far cheek, -50 the near one; common practice.
    CHECK(face_angles(direction_from({70, 30}), head_rotation(30, 0, 0)).azimuth_deg == Approx(40));
    CHECK(side_at(70, 30, 30) == Side::short_side);
    CHECK(side_at(-20, 30, 30) == Side::broad_side);
}

TEST_CASE("Short and broad mirror with the set", "[portrait]") {
    for (const double turn : {-60.0, -35.0, -12.0, 12.0, 35.0, 60.0})
        for (const double light : {-150.0, -80.0, -45.0, -20.0, 20.0, 45.0, 80.0, 150.0})
            CHECK(side_at(light, 30, turn) == side_at(-light, 30, -turn));
}

TEST_CASE("A head that faces the lens, or a lamp on the nose's plane, lights the front",
          "[portrait]") {
    CHECK(side_at(45, 40, 0) == Side::front);
    CHECK(side_at(45, 40, front_camera_deg - 0.1) == Side::front);
    CHECK(side_at(45, 40, front_camera_deg + 0.1) == Side::short_side);
    CHECK(side_at(-45, 40, front_camera_deg + 0.1) == Side::broad_side);
    CHECK(side_at(30, 45, 30) == Side::front);
    CHECK(side_at(30 + front_lamp_deg + 0.1, 0, 30) == Side::short_side);
    CHECK(side_at(30 - front_lamp_deg - 0.1, 0, 30) == Side::broad_side);
}

TEST_CASE("Leaning the head does not swap short and broad", "[portrait]") {
    for (const double roll : {-12.0, 0.0, 12.0}) {
        const Mat3 axes = head_rotation(30, 5, roll);
        CHECK(lit_side(direction_from({75, 30}), to_camera, axes) == Side::short_side);
        CHECK(lit_side(direction_from({-25, 30}), to_camera, axes) == Side::broad_side);
    }
}
