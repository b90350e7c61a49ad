// A spectacle lens as glass, against textbook formulas.
#include "sim/subject/lens.h"

#include <catch2/catch.hpp>

using namespace keystead;

TEST_CASE("Glass mirrors four per cent a surface straight on and everything at grazing") {
    // Fresnel: ((n - 1) / (n + 1))^2 straight on. At Brewster's angle atan(n) nothing of the light
    // polarised along the plane is mirrored, so R is half of ((n^2 - 1) / (n^2 + 1))^2.
    CHECK(surface_reflectance(1.0) == Approx(0.04));
    const double brewster = std::atan(1.5);
    CHECK(surface_reflectance(std::cos(brewster)) ==
          Approx(0.5 * std::pow((2.25 - 1.0) / (2.25 + 1.0), 2)));
    CHECK(surface_reflectance(0.0) == Approx(1.0));
    // A plate of two surfaces lets 92 % through (handbooks of optical glass, uncoated n = 1.5).
    CHECK(1.0 - plate_reflectance(1.0) == Approx(0.923).margin(0.001));
}

TEST_CASE("A line meets the lens on its sphere within the outline, from either side") {
    LensSurface lens;
    lens.sphere_centre_m = Vec3(0, 0, -lens.radius_m);
    const auto front = meet_lens(lens, {0.010, 0.005, 1.0}, {0, 0, -1});
    REQUIRE(front);
    const double depth = std::sqrt(0.132 * 0.132 - 0.010 * 0.010 - 0.005 * 0.005) - 0.132;
    CHECK(front->position_m.z == Approx(depth));
    CHECK(front->normal.x == Approx(0.010 / 0.132));
    const auto back = meet_lens(lens, {0.010, 0.005, -0.05}, {0, 0, 1});
    REQUIRE(back);
    CHECK(glm::distance(back->position_m, front->position_m) < 1e-12);
    CHECK(glm::distance(back->normal, -front->normal) < 1e-12);
    CHECK_FALSE(meet_lens(lens, {0.026, 0.0, 1.0}, {0, 0, -1}));
    CHECK_FALSE(meet_lens(lens, {0.0, 0.021, 1.0}, {0, 0, -1}));
    // Far side of the sphere, and behind where the line starts.
    CHECK_FALSE(meet_lens(lens, {0.0, 0.0, -0.4}, {0, 0, -1}));
    CHECK_FALSE(meet_lens(lens, {0.0, 0.0, 1.0}, {0, 0, 1}));
}
