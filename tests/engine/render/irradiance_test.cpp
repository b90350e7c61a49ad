// The picture is measured light: pi·L of a white Lambertian plane against the closed forms of
// radiative exchange (Siegel & Howell, Thermal Radiation Heat Transfer; formulas from memory, their
// values in tests/data/checks.csv confirmed by quadrature).
#include "sim/light/emission_text.h"
#include "tests/engine/render/bench.h"
#include "tests/support/helpers/parallel_factors.h"

#include <catch2/catch.hpp>
#include <cmath>

using namespace bench;

namespace {

constexpr int side_px = 48;
constexpr double exitance = 1000.0;

/// White plane z = 0, looked at from the front; the lights are not in the picture.
ScenePart wall() {
    return part("wall", "wall", quad(Vec3(0), Vec3(2, 0, 0), Vec3(0, 2, 0)), 1.0F);
}

View front_view() {
    return bench::view(Vec3(0.2, 0.1, 3.0), Vec3(0.2, 0.1, 0.0), 0.25, side_px, side_px);
}

bool everywhere(const Vec3&) {
    return true;
}

Error rendered(const Emitter& emitter, int samples,
               const std::function<double(const Vec3&)>& expected,
               const std::function<bool(const Vec3&)>& region = everywhere) {
    auto r = renderer();
    r->show(studio({wall()}, {emitter}));
    r->look(front_view(), side_px, side_px);
    converge(*r, samples);
    return irradiance_error(*r, 1.0, expected, region);
}

} // namespace

TEST_CASE("A disc's rendered irradiance is the closed form within 1 %") {
    const double r = 0.45, d = 1.2;
    const Error error = rendered(disc(Vec3(0, 0, d), Vec3(0, 0, -1), r), 64, [&](const Vec3& p) {
        return exitance * disc_factor(r, d, std::hypot(p.x, p.y));
    });
    INFO("largest " << error.largest << ", mean " << error.mean << " over " << error.pixels);
    CHECK(error.pixels == side_px * side_px);
    CHECK(error.largest < 0.01);
}

TEST_CASE("A rectangle's and a strip's rendered irradiance is the closed form within 1 %") {
    for (const auto& [w, h, d] : {std::tuple{0.6, 0.9, 1.2}, {0.3, 1.2, 1.0}, {0.3, 1.2, 2.0}}) {
        const Error error =
            rendered(rectangle(Vec3(0, 0, d), Vec3(0, 0, -1), w, h), 64,
                     [&](const Vec3& p) { return exitance * rectangle_factor(w, h, d, p.x, p.y); });
        INFO(w << " x " << h << " at " << d << ": largest " << error.largest);
        CHECK(error.largest < 0.01);
    }
}

TEST_CASE("A gridded disc's rendered irradiance is the integral of its cells' transmittance") {
    // Square cells as deep as wide. No closed form off the axis: midpoint rule in
    // polar coordinates of the disc, 200 x 400 points, transmittance of square cells
    // (1-u|cos|)(1-u|sin|).
    Emitter gridded = disc(Vec3(0, 0, 1.5), Vec3(0, 0, -1), 0.40);
    gridded.grid = Grid{};
    gridded.grid->cell = GridCell::square;
    gridded.grid->cell_width_m = 0.05;
    gridded.grid->cell_depth_m = 0.05;
    gridded.grid->open_fraction = 1.0;
    gridded.grid->wall_reflection = 0.0;
    const auto expected = [](const Vec3& p) {
        double sum = 0.0;
        for (int i = 0; i < 100; ++i)
            for (int j = 0; j < 200; ++j) {
                const double r = 0.40 * std::sqrt((i + 0.5) / 100),
                             turn = 2.0 * pi * (j + 0.5) / 200;
                const double x = r * std::cos(turn) - p.x, y = r * std::sin(turn) - p.y, z = 1.5;
                const double through =
                    std::max(0.0, 1.0 - std::abs(x) / z) * std::max(0.0, 1.0 - std::abs(y) / z);
                sum += through * z * z / std::pow(x * x + y * y + z * z, 2);
            }
        return exitance / pi * pi * 0.16 * sum / 20000.0;
    };
    const Error error = rendered(gridded, 256, expected, [](const Vec3& p) {
        return std::abs(p.y - 0.3) < 0.06; // the sum is slow, a band of the picture is enough
    });
    INFO("largest " << error.largest << ", mean " << error.mean);
    CHECK(error.largest < 0.003);
    CHECK(error.mean < 0.001);
}

TEST_CASE("Sixteen samples of a large near light are within 2 % and the error falls from there") {
    const double r = 0.6, d = 1.0;
    const auto expected = [&](const Vec3& p) {
        return exitance * disc_factor(r, d, std::hypot(p.x, p.y));
    };
    const Error few = rendered(disc(Vec3(0, 0, d), Vec3(0, 0, -1), r), 16, expected);
    const Error many = rendered(disc(Vec3(0, 0, d), Vec3(0, 0, -1), r), 256, expected);
    INFO("16: " << few.mean << ", 256: " << many.mean);
    CHECK(few.mean < 0.02);
    CHECK(many.mean < 0.25 * few.mean);
}
