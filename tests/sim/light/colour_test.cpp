#include "sim/light/colour.h"

#include "support/helpers/checks.h"

#include <limits>

using namespace keystead;

TEST_CASE("Mired values add through gels", "[colour]") {
    CHECK_ROW(69, mired_of(5600));
    CHECK_ROW(70, mired_of(5500));
    CHECK_ROW(71, mired_of(3200));
    CHECK_ROW(72, mired_of(6500));
    CHECK_ROW(73, mired_of(7000));
    CHECK_ROW(74, gelled_colour_k(5600, 159));
    CHECK_ROW(75, gelled_colour_k(7000, 159));
    CHECK_ROW(76, gelled_colour_k(3200, -137));
    CHECK_ROW(77, mired_shift_between(5500, 3200));
    // Gelling flash to tungsten takes about +134 (common practice).
    CHECK(mired_shift_between(5600, 3200) == Approx(134).margin(0.5));
}

TEST_CASE("The black-body locus passes through CIE illuminant A and the textbook's points",
          "[colour]") {
    // CIE 15: illuminant A (2856 K) x = 0.44757, y = 0.40745. Tolerance: the rational fit's own
    // error.
    CHECK(planckian_xy(2856).x == Approx(0.44757).margin(5e-4));
    CHECK(planckian_xy(2856).y == Approx(0.40745).margin(5e-4));
    // Wyszecki and Stiles, Color Science, black-body table (from memory): 5000 K 0.3451, 0.3516;
    // 10000 K 0.2807, 0.2884.
    CHECK(planckian_xy(5000).x == Approx(0.3451).margin(5e-4));
    CHECK(planckian_xy(5000).y == Approx(0.3516).margin(5e-4));
    CHECK(planckian_xy(10000).x == Approx(0.2807).margin(5e-4));
    CHECK(planckian_xy(10000).y == Approx(0.2884).margin(5e-4));
}

TEST_CASE("A lamp at the white balance is neutral, warmer ones are red, cooler ones blue",
          "[colour]") {
    const Vec3 neutral = lamp_colour(5600);
    for (int i = 0; i < 3; ++i) CHECK(neutral[i] == Approx(1.0).margin(1e-3));
    double red_over_blue = std::numeric_limits<double>::infinity();
    for (double colour_k = 1500; colour_k <= 15000; colour_k += 500) {
        const Vec3 colour = lamp_colour(colour_k);
        CHECK(glm::dot(colour, Vec3(0.2126, 0.7152, 0.0722)) == Approx(1.0));
        CHECK(colour.b >= 0.0);
        CHECK(colour.r / std::max(colour.b, 1e-9) < red_over_blue);
        red_over_blue = colour.r / std::max(colour.b, 1e-9);
    }
    CHECK(lamp_colour(3200).r > 1.3);
    CHECK(lamp_colour(10000).b > 1.3);
}

TEST_CASE("Daylight seen at its own balance has the same colour as a grey in sRGB", "[colour]") {
    // IEC 61966-2-1: chromaticity of D65 is equal red, green and blue.
    const Vec3 white = linear_srgb_of_xy({0.3127, 0.3290});
    for (int i = 0; i < 3; ++i) CHECK(white[i] == Approx(1.0).margin(1e-3));
}

TEST_CASE("A gel turns the colour by its mired and tints by what it passes", "[colour]") {
    Gel gel;
    gel.mired_shift = 159.0;
    // Row 74: 5600 K + 159 mired is 2962.3 K; the lamp then looks as a black body of that.
    const Vec3 gelled = gelled_colour(5600, gel), body = lamp_colour(2962.336);
    for (int i = 0; i < 3; ++i) CHECK(gelled[i] == Approx(body[i]).epsilon(1e-5));
    gel.mired_shift = 0.0;
    gel.transmission = 0.1;
    gel.colour = Reflectance{Vec3(0.05, 0.1, 1.0)};
    const Vec3 blue = gelled_colour(5600, gel);
    // By hand, of a lamp at the balance: the passed primaries over their luminance.
    const double luminance = 0.2126 * 0.05 + 0.7152 * 0.1 + 0.0722;
    CHECK(blue.r == Approx(0.05 / luminance).epsilon(2e-3));
    CHECK(blue.b == Approx(1.0 / luminance).epsilon(2e-3));
    CHECK(glm::dot(blue, Vec3(0.2126, 0.7152, 0.0722)) == Approx(1.0));
    // Colour does not change the light: transmission does.
    gel.colour = Reflectance{Vec3(0.0)};
    CHECK(gelled_colour(5600, gel) == lamp_colour(5600));
    CHECK(gelled_colour(5600, {}) == lamp_colour(5600));
}

TEST_CASE("A daylight lamp under a half warming gel has the published chromaticity", "[colour]") {
    // CIE 15 daylight locus (formula seen in colour libraries' documentation): D55 x = 0.33242, y =
    // 0.34743. A black body of its temperature lies on the locus's pink side, within 0.006.
    CHECK(planckian_xy(5503).x == Approx(0.33242).margin(0.006));
    CHECK(planckian_xy(5503).y == Approx(0.34743).margin(0.008));
    // 5500 K + 130.68 mired (row 77) is 3200 K: x = 0.4234, y = 0.3990 (black-body table, from
    // memory).
    const Vec2 tungsten = planckian_xy(gelled_colour_k(5500, 130.68182));
    CHECK(tungsten.x == Approx(0.4234).margin(1e-3));
    CHECK(tungsten.y == Approx(0.3990).margin(1e-3));
}
