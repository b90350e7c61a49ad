#include "sim/base/frames.h"

#include <catch2/catch.hpp>

using namespace keystead;

TEST_CASE("Azimuth runs from the camera axis toward camera right, elevation up", "[frames]") {
    CHECK(direction_from({90, 0}).x == Approx(1.0));
    CHECK(direction_from({0, 0}).z == Approx(1.0));
    CHECK(direction_from({0, 90}).y == Approx(1.0));
    const Angles back = angles_of(direction_from({-123, 41}));
    CHECK(back.azimuth_deg == Approx(-123));
    CHECK(back.elevation_deg == Approx(41));
}

TEST_CASE("Turn, nod and roll move nose and crown as the document says", "[frames]") {
    const Vec3 nose(0, 0, 1), crown(0, 1, 0);
    CHECK((head_rotation(20, 0, 0) * nose).x > 0.3);
    CHECK((head_rotation(0, 20, 0) * nose).y > 0.3);
    CHECK((head_rotation(0, 0, 20) * crown).x > 0.3);
    CHECK(glm::determinant(head_rotation(13, -7, 5)) == Approx(1.0));
}
