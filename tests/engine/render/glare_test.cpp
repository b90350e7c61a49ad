// The lens's scattered light keeps the light it spreads, and spreads it as widely as it says.
#include "engine/render/glare.h"

#include <catch2/catch.hpp>
#include <cmath>

using namespace keystead;

namespace {

LinearImage point_at(int width, int height, int x, int y) {
    LinearImage image{width, height, {}};
    image.pixels.assign(static_cast<std::size_t>(width * height), glm::vec3(0.0F));
    image.pixels[static_cast<std::size_t>(y * width + x)] = glm::vec3(1.0F, 2.0F, 4.0F);
    return image;
}

} // namespace

TEST_CASE("Glare keeps the sum of the light, in the middle and at the edge", "[glare]") {
    for (const int x : {0, 7, 100}) {
        LinearImage image = point_at(200, 120, x, x / 2);
        add_glare(image);
        glm::dvec3 sum(0.0);
        for (const glm::vec3& pixel : image.pixels) sum += glm::dvec3(pixel);
        CHECK(sum.r == Approx(1.0).epsilon(2e-4));
        CHECK(sum.b == Approx(4.0).epsilon(2e-4));
    }
}

TEST_CASE("An even picture stays as it is", "[glare]") {
    LinearImage image = point_at(64, 40, 0, 0);
    image.pixels.assign(image.pixels.size(), glm::vec3(0.3F));
    add_glare(image);
    for (const glm::vec3& pixel : image.pixels) REQUIRE(pixel.g == Approx(0.3F).epsilon(1e-5));
}

TEST_CASE("Scattered light's second moment is that of its three bells", "[glare]") {
    // 0.02 of the light, sigma of 0.6, 2.2 and 8 % of the width; both axes alike.
    constexpr int side = 801;
    LinearImage image = point_at(side, side, side / 2, side / 2);
    add_glare(image);
    double moment = 0.0;
    for (int y = 0; y < side; ++y)
        for (int x = 0; x < side; ++x)
            moment += static_cast<double>(image.pixels[static_cast<std::size_t>(y * side + x)].r) *
                      std::pow(x - side / 2, 2);
    const double wanted =
        0.02 * side * side * (0.5 * 0.006 * 0.006 + 0.3 * 0.022 * 0.022 + 0.2 * 0.08 * 0.08);
    CHECK(moment == Approx(wanted).epsilon(0.05));
}
