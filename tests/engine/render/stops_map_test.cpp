// The map of stops and the clipping marks: what they say is what the light is, and grey prints keep
// it.
#include "engine/plate/legend.h"
#include "engine/render/display_text.h"
#include "engine/render/stops_map_text.h"
#include "sim/light/colour.h"
#include "sim/light/sensor.h"
#include "tests/engine/render/bench.h"

#include <catch2/catch.hpp>
#include <cmath>

using namespace bench;

namespace {

/// CIE L* of an sRGB code (IEC 61966-2-1 and CIE 15).
double lightness_of(const glm::u8vec3& code) {
    const double y = 0.2126 * srgb_decode(code.r / 255.0) + 0.7152 * srgb_decode(code.g / 255.0) +
                     0.0722 * srgb_decode(code.b / 255.0);
    return cie_lightness(y);
}

/// A wall of strips, each so many stops from the first strip's tone.
std::shared_ptr<Studio> strips_of(const std::vector<double>& albedos) {
    std::vector<ScenePart> strips;
    const int count = static_cast<int>(albedos.size());
    for (int i = 0; i < count; ++i)
        strips.push_back(part(
            "strip", "s" + std::to_string(i),
            quad(Vec3((2.0 * i + 1.0) / count - 1.0, 0, 0), Vec3(1.0 / count, 0, 0), Vec3(0, 1, 0)),
            static_cast<float>(albedos[static_cast<std::size_t>(i)])));
    return studio(strips, {disc(Vec3(0, 0, 30), Vec3(0, 0, -1), 4.0)});
}

glm::u8vec3 pixel(const RgbaImage& image, int x, int y) {
    const std::size_t at = 4 * static_cast<std::size_t>(y * image.width + x);
    return {image.pixels[at], image.pixels[at + 1], image.pixels[at + 2]};
}

} // namespace

TEST_CASE("The bands' lightness rises evenly, so that a grey print keeps their order") {
    for (int band = lowest_band; band < highest_band; ++band) {
        const double step = lightness_of(band_colour(band + 1)) - lightness_of(band_colour(band));
        INFO("band " << band);
        CHECK(step == Approx(8.0).margin(0.7)); // even steps of L*; 8-bit codes round
    }
}

TEST_CASE("The face's band is grey, darker ones blue and lighter ones yellow") {
    const glm::u8vec3 face = band_colour(0);
    CHECK(face.r == face.g);
    CHECK(face.g == face.b);
    for (int band = lowest_band; band < 0; ++band) CHECK(band_colour(band).b > band_colour(band).r);
    for (int band = 1; band <= highest_band; ++band)
        CHECK(band_colour(band).r > band_colour(band).b + 30);
}

TEST_CASE("Each place of the map is in the band of its stops from the face") {
    // Albedos of whole stops from 0.5: 0, -1, -2, -3.
    auto r = renderer();
    r->show(strips_of({0.5, 0.25, 0.125, 0.0625}));
    r->look(bench::view(Vec3(0, 0, 4), Vec3(0), 0.25, 64, 64), 64, 64);
    converge(*r, 4);
    const LinearImage linear = r->read_linear();
    Display display;
    display.shown_as = ShownAs::stops;
    display.exposure = 1.0;
    display.face_tone = linear.pixels[32 * 64 + 8].g; // in the first strip
    display.mark_px = 1;
    const RgbaImage map = r->read_display(display);
    for (int strip = 0; strip < 4; ++strip) {
        INFO("strip " << strip);
        CHECK(pixel(map, 8 + 16 * strip, 32) == band_colour(-strip));
    }
    // Where two bands meet there is a line, darker than both.
    int lines = 0;
    for (int x = 1; x < 63; ++x)
        if (lightness_of(pixel(map, x, 32)) + 8.0 < lightness_of(pixel(map, x - 1, 32)) &&
            lightness_of(pixel(map, x, 32)) + 4.0 <
                lightness_of(pixel(map, std::min(63, x + 3), 32)))
            ++lines;
    CHECK(lines >= 3);
}

TEST_CASE("Stripes lie where a channel fills the sensor, dots where nothing is left") {
    auto r = renderer();
    r->show(strips_of({0.9, 0.18, 0.0004}));
    r->look(bench::view(Vec3(0, 0, 4), Vec3(0), 0.25, 96, 96), 96, 96);
    converge(*r, 4);
    const LinearImage linear = r->read_linear();
    const Camera camera;
    Display display = camera_display(camera, MeterSettings{});
    display.dither = false;
    // So that the white strip is at 1.6 and grey at 0.32: above and below the full sensor.
    display.exposure = 1.6 / static_cast<double>(linear.pixels[48 * 96 + 16].g);
    const RgbaImage plain = r->read_display(display);
    display.clipping = true;
    const RgbaImage marked = r->read_display(display);
    // ISO 12232: full half a stop above a white in metered light (checks 31-34 hold the figure).
    CHECK(display.full_tone == Approx(saturating_reflectance(250.0)));
    const auto changed = [&](int from, int to) {
        int count = 0;
        for (int y = 0; y < 96; ++y)
            for (int x = from; x < to; ++x) count += pixel(plain, x, y) != pixel(marked, x, y);
        return static_cast<double>(count) / (96.0 * (to - from));
    };
    CHECK(changed(4, 28) > 0.9);   // black and white stripes over code 241
    CHECK(changed(36, 60) == 0.0); // grey is left alone
    CHECK(changed(68, 92) == Approx(1.0 / 16.0).margin(0.02)); // dots of 2 in 8 by 8 pixels
    int white = 0, black = 0;
    for (int y = 0; y < 96; ++y)
        for (int x = 4; x < 28; ++x) {
            white += pixel(marked, x, y).g == 255;
            black += pixel(marked, x, y).g == 0;
        }
    CHECK(white + black == 96 * 24);
    CHECK(std::abs(white - black) < 96 * 24 / 8);
}

TEST_CASE("A camera balanced for another light shows that light as white") {
    // A lamp of 3200 K rendered relative to 5600 K, seen by a camera balanced for 3200 K.
    auto r = renderer();
    Emitter lamp = disc(Vec3(0, 0, 30), Vec3(0, 0, -1), 4.0);
    lamp.colour = lamp_colour(3200.0);
    auto s =
        studio({part("wall", "wall", quad(Vec3(0), Vec3(2, 0, 0), Vec3(0, 2, 0)), 0.5F)}, {lamp});
    r->show(s);
    r->look(bench::view(Vec3(0, 0, 4), Vec3(0), 0.25, 16, 16), 16, 16);
    converge(*r, 4);
    Camera camera;
    camera.white_balance_k = 3200.0;
    Display display = camera_display(camera, MeterSettings{});
    display.dither = false;
    display.exposure = 0.3 / static_cast<double>(r->read_linear().pixels[8 * 16 + 8].g);
    const glm::u8vec3 balanced = pixel(r->read_display(display), 8, 8);
    CHECK(std::abs(balanced.r - balanced.g) <= 1);
    CHECK(std::abs(balanced.b - balanced.g) <= 1);
    camera.white_balance_k = white_balance_k;
    Display unbalanced = camera_display(camera, MeterSettings{});
    unbalanced.exposure = display.exposure;
    unbalanced.dither = false;
    const glm::u8vec3 warm = pixel(r->read_display(unbalanced), 8, 8);
    CHECK(warm.r > warm.b + 80);
}

TEST_CASE("The key below a map names every band and leaves the picture as it is") {
    RgbaImage picture;
    picture.width = 640;
    picture.height = 100;
    picture.pixels.assign(4U * 640U * 100U, 77);
    Display display;
    CHECK(with_legend(picture, display).height == 100);
    display.shown_as = ShownAs::stops;
    const RgbaImage whole = with_legend(picture, display);
    CHECK(whole.width == 640);
    CHECK(whole.height > 130);
    CHECK(std::equal(picture.pixels.begin(), picture.pixels.end(), whole.pixels.begin()));
    for (int band = lowest_band; band <= highest_band; ++band) {
        int found = 0;
        for (int x = 0; x < 640; ++x) found += pixel(whole, x, 112) == band_colour(band);
        INFO("band " << band);
        CHECK(found > 4);
    }
}
