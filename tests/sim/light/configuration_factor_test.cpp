#include "sim/light/configuration_factor.h"

#include "sim/light/falloff.h"
#include "sim/light/stops.h"
#include "support/helpers/checks.h"

#include <random>

using namespace keystead;

namespace {

/// A rectangle at the origin facing +Z.
std::vector<Vec3> rectangle(double width_m, double height_m) {
    const double x = width_m / 2, y = height_m / 2;
    return {{-x, -y, 0}, {x, -y, 0}, {x, y, 0}, {-x, y, 0}};
}

} // namespace

TEST_CASE("Discs light a receptor as the closed forms say", "[area]") {
    CHECK_ROW(78, disc_on_axis(0.5, 1.0));
    CHECK_ROW(79, disc_on_axis(0.35, 1.2));
    CHECK_ROW(80, disc_on_axis(0.75, 1.5));
    CHECK_ROW(81, disc_on_axis(0.45, 1.2));
    CHECK_ROW(82, disc_on_axis(0.1, 1.0));
    CHECK_ROW(83, disc_on_axis(0.6, 3.0));
    CHECK_ROW(84, disc_offset_parallel(0.45, 1.2, 0.5));
    CHECK_ROW(85, disc_offset_perpendicular(0.45, 1.2, 0.8));
    CHECK(disc_offset_parallel(0.45, 1.2, 1e-4) == Approx(disc_on_axis(0.45, 1.2)));
}

TEST_CASE("Rectangles light a receptor as the closed forms say", "[area]") {
    CHECK_ROW(86, rectangle_corner_parallel(1, 1, 1));
    CHECK_ROW(87, rectangle_corner_parallel(0.3, 0.6, 1.0));
    CHECK_ROW(88, rectangle_parallel(0.6, 1.2, 1.0));
    CHECK_ROW(89, rectangle_parallel(0.3, 1.2, 1.0));
    CHECK_ROW(90, rectangle_parallel(0.3, 1.2, 2.0));
    CHECK_ROW(91, rectangle_parallel(1, 1, 1));
    CHECK_ROW(92, rectangle_parallel(1, 1, 5));
    CHECK_ROW(93, rectangle_parallel(0.6, 0.9, 1.2, {0.5, 0.2}));
    CHECK_ROW(95, rectangle_corner_perpendicular(0.5, 0.3, 1.0));
    CHECK_ROW(96, rectangle_corner_perpendicular(1, 1, 1));
}

TEST_CASE("Lambert's polygon formula agrees with the rectangles and serves tilted receptors",
          "[area]") {
    const Vec3 tilted(std::sin(radians(40)), 0, -std::cos(radians(40)));
    CHECK_ROW(94, polygon_factor(rectangle(0.6, 0.9), {0, 0, 1.2}, tilted));
    CHECK_ROW(93, polygon_factor(rectangle(0.6, 0.9), {0.5, 0.2, 1.2}, {0, 0, -1}));
    // The perpendicular corner: receptor in the plane of the rectangle's lower edge.
    const std::vector<Vec3> wall = {{0, 0, 0}, {0.3, 0, 0}, {0.3, 0.5, 0}, {0, 0.5, 0}};
    CHECK_ROW(95, polygon_factor(wall, {0, 0, 1.0}, {0, 1, 0}));
}

TEST_CASE("A polygon is cut at the receptor's horizon", "[area]") {
    // A receptor lying level at half height sees only the upper half: twice the corner form.
    const double whole = polygon_factor(rectangle(0.6, 1.0), {0, 0, 1.0}, {0, 1, 0});
    CHECK(whole == Approx(2 * rectangle_corner_perpendicular(0.5, 0.3, 1.0)).epsilon(1e-12));
    // Turned away, it sees nothing; turned over, the other half: upper plus lower is symmetric.
    CHECK(polygon_factor(rectangle(0.6, 1.0), {0, 0, 1.0}, {0, 0, 1}) == 0.0);
    CHECK(polygon_factor(rectangle(0.6, 1.0), {0, 0, 1.0}, {0, -1, 0}) == Approx(whole));
}

TEST_CASE("A polygon's factor is the sum of its pieces' for any receptor", "[area]") {
    std::mt19937 random(7);
    std::uniform_real_distribution<double> place(-1.5, 1.5);
    for (int i = 0; i < 200; ++i) {
        const Vec3 point(place(random), place(random), 0.3 + std::abs(place(random)));
        const Vec3 normal = glm::normalize(Vec3(place(random), place(random), place(random)));
        const std::vector<Vec3> left = {
            {-0.4, -0.6, 0}, {0.1, -0.6, 0}, {0.1, 0.6, 0}, {-0.4, 0.6, 0}};
        const std::vector<Vec3> right = {
            {0.1, -0.6, 0}, {0.4, -0.6, 0}, {0.4, 0.6, 0}, {0.1, 0.6, 0}};
        CHECK(polygon_factor(rectangle(0.8, 1.2), point, normal) ==
              Approx(polygon_factor(left, point, normal) + polygon_factor(right, point, normal))
                  .margin(1e-12));
    }
}

TEST_CASE("An octagon is nearly its equal-area disc", "[area]") {
    CHECK_ROW(97, polygon_factor(octagon_vertices(0.60), {0, 0, 1.5}, {0, 0, -1}));
    CHECK_ROW(98, equal_area_radius_of_octagon_m(0.60));
    CHECK_ROW(99, disc_on_axis(equal_area_radius_of_octagon_m(0.60), 1.5));
}

TEST_CASE("Five times the size makes a source a point within one per cent", "[area]") {
    const double disc = pi * 0.25; // diameter 1
    CHECK_ROW(100, point_source_excess(disc, 1, disc_on_axis(0.5, 1)));
    CHECK_ROW(101, point_source_excess(disc, 2, disc_on_axis(0.5, 2)));
    CHECK_ROW(102, point_source_excess(disc, 3, disc_on_axis(0.5, 3)));
    CHECK_ROW(103, point_source_excess(disc, 5, disc_on_axis(0.5, 5)));
    const double diagonals = 5 * std::sqrt(2.0);
    CHECK_ROW(104, point_source_excess(1, 5, rectangle_parallel(1, 1, 5)));
    CHECK_ROW(105, point_source_excess(1, diagonals, rectangle_parallel(1, 1, diagonals)));
    CHECK_ROW(106, point_source_excess(1, 1, rectangle_parallel(1, 1, 1)));
}

TEST_CASE("A close softbox falls off slower than the inverse square", "[area]") {
    CHECK_ROW(107, inverse_square_stops(1, 2));
    CHECK_ROW(108, inverse_square_stops(1.2, 3.2));
    CHECK_ROW(109, stops_between(disc_on_axis(0.5, 1), disc_on_axis(0.5, 2)));
    // A 0.9 m square on its axis, against the rule's 2.0 stops; tolerance a hundredth.
    const auto square_stops = [](double from_m, double to_m) {
        return stops_between(rectangle_parallel(0.9, 0.9, to_m),
                             rectangle_parallel(0.9, 0.9, from_m));
    };
    CHECK(square_stops(0.3, 0.6) == Approx(0.83).margin(0.01));
    CHECK(square_stops(0.6, 1.2) == Approx(1.45).margin(0.01));
    CHECK(square_stops(1.2, 2.4) == Approx(1.82).margin(0.01));
    CHECK(square_stops(2.4, 4.8) == Approx(1.95).margin(0.01));
    // Key from 1.5 to 1.0 m with the wall 2 m behind: by the inverse square the wall drops 0.73
    // stop against the face, under the real box less.
    const double point = inverse_square_stops(1.5, 1.0) - inverse_square_stops(3.5, 3.0);
    CHECK(point == Approx(0.73).margin(0.01));
    CHECK(square_stops(1.0, 1.5) - square_stops(3.0, 3.5) < point);
    // A strip's falloff between 1 and 2 m: 1.778 stops.
    CHECK(stops_between(rectangle_parallel(0.3, 1.2, 2), rectangle_parallel(0.3, 1.2, 1)) ==
          Approx(1.778).margin(1e-3));
}
