// The display transform: anchored at mid grey, the same in GLSL and C++.
#include "engine/render/display_text.h"
#include "support/helpers/checks.h"
#include "tests/engine/render/bench.h"

#include <catch2/catch.hpp>
#include <cmath>

using namespace bench;

namespace {

int code(float linear) {
    const float shown = display_curve::display_encoded(glm::vec3(linear), true).g;
    return static_cast<int>(std::lround(255.0F * shown));
}

} // namespace

TEST_CASE("Mid grey passes unchanged and five stops above it is white") {
    // The project's own curve: identity to 0.55, shoulder to 6. Codes worked out by hand from it.
    CHECK(code(0.18F) == 118);
    CHECK(code(0.36F) == 162);
    CHECK(code(0.55F) == 196);
    CHECK(code(0.7F) == 213);
    CHECK(code(0.9F) == 225);
    CHECK(code(1.0F) == 229);
    CHECK(code(1.5F) == 240);
    CHECK(code(2.0F) == 245);
    CHECK(code(3.0F) == 250);
    CHECK(code(4.0F) == 253);
    CHECK(code(6.0F) == 255);
    CHECK(code(60.0F) == 255);
}

TEST_CASE("The sRGB encoding is that of IEC 61966-2-1") {
    CHECK_ROW(53, 255.0 * static_cast<double>(display_curve::srgb_encoded(0.18F)));
    CHECK_ROW(54, 255.0 * static_cast<double>(display_curve::srgb_encoded(0.127279F)));
}

TEST_CASE("A bright skin tone keeps its hue through the shoulder better than channel by channel") {
    // Ratio (r-b)/(g-b) is hue at constant chroma; clipping sends it to yellow (ratio to 1).
    const glm::vec3 skin(0.50F, 0.335F, 0.26F);
    const auto hue = [](const glm::vec3& c) { return (c.r - c.b) / (c.g - c.b); };
    const glm::vec3 bright = 2.5F * skin;
    const glm::vec3 kept = display_curve::soft_shoulder(bright);
    const glm::vec3 apart(display_curve::shoulder(bright.r), display_curve::shoulder(bright.g),
                          display_curve::shoulder(bright.b));
    CHECK(std::abs(hue(kept) - hue(skin)) < std::abs(hue(apart) - hue(skin)));
    const glm::vec3 white = display_curve::soft_shoulder(20.0F * skin);
    CHECK(white.r - white.b < 0.02F);
}

TEST_CASE("An 18 % card under metered light is exposed to 0.18") {
    Camera camera;
    camera.f_number = 8.0;
    camera.iso = 100.0;
    const MeterSettings meter;
    // Metered: 160 lx·s (ISO 2720, C 250); the card's radiance is 0.18 H / pi.
    CHECK(display_exposure(camera, meter) * 0.18 * 160.0 / pi == Approx(0.18).epsilon(1e-12));
    camera.f_number = 5.6; // exactly 2^2.5: one stop more light
    CHECK(display_exposure(camera, meter) * 0.18 * 80.0 / pi == Approx(0.18).epsilon(1e-9));
}

TEST_CASE("The shader shows what the C++ curve says") {
    auto r = renderer();
    std::vector<ScenePart> strips;
    for (int i = 0; i < 8; ++i) {
        auto one =
            part("strip", "s" + std::to_string(i),
                 quad(Vec3(-0.875 + 0.25 * i, 0, 0), Vec3(0.125, 0, 0), Vec3(0, 1, 0)), 1.0F);
        one.material.albedo = glm::vec3(0.9F, 0.5F + 0.05F * static_cast<float>(i), 0.3F);
        strips.push_back(one);
    }
    Emitter sun = disc(Vec3(0, 0, 30), Vec3(0, 0, -1), 4.0);
    r->show(studio(strips, {sun}));
    r->look(bench::view(Vec3(0, 0, 4), Vec3(0), 0.25, 64, 16), 64, 16);
    converge(*r, 4);
    const LinearImage linear = r->read_linear();
    for (const bool soft : {true, false})
        for (const double exposure : {0.002, 0.02, 0.2, 2.0}) {
            Display display;
            display.exposure = exposure;
            display.soft_shoulder = soft;
            display.dither = false;
            const RgbaImage shown = r->read_display(display);
            int worst = 0;
            for (std::size_t i = 0; i < linear.pixels.size(); ++i) {
                const glm::vec3 want = display_curve::display_encoded(
                    static_cast<float>(exposure) * linear.pixels[i], soft);
                for (int c = 0; c < 3; ++c)
                    worst =
                        std::max(worst, static_cast<int>(std::abs(
                                            std::lround(255.0F * want[c]) -
                                            shown.pixels[4 * i + static_cast<std::size_t>(c)])));
            }
            INFO("exposure " << exposure << ", soft " << soft);
            CHECK(worst <= 1);
        }
}

TEST_CASE("Dither moves no pixel by more than one code and keeps the mean") {
    auto r = renderer();
    r->show(studio({part("wall", "wall", quad(Vec3(0), Vec3(2, 0, 0), Vec3(0, 2, 0)), 0.5F)},
                   {disc(Vec3(0, 0, 30), Vec3(0, 0, -1), 4.0)}));
    r->look(bench::view(Vec3(0, 0, 4), Vec3(0), 0.25, 64, 64), 64, 64);
    converge(*r, 4);
    Display display;
    display.exposure = 0.0235;
    display.dither = false;
    const RgbaImage plain = r->read_display(display);
    display.dither = true;
    const RgbaImage dithered = r->read_display(display);
    double sum = 0.0;
    int worst = 0;
    for (std::size_t i = 0; i < plain.pixels.size(); i += 4) {
        const int step = dithered.pixels[i] - plain.pixels[i];
        worst = std::max(worst, std::abs(step));
        sum += step;
    }
    CHECK(worst <= 1);
    CHECK(std::abs(sum / (64.0 * 64.0)) < 0.5);
}
