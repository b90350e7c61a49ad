// Stills: whole pictures without a window, in files that say what their numbers mean.
#include "engine/render/png.h"
#include "engine/render/still.h"
#include "sim/set/set_io.h"
#include "sim/studio/studio.h"
#include "tests/engine/render/bench.h"

#include <catch2/catch.hpp>
#include <cstring>
#include <filesystem>
#include <stb_image.h>

using namespace bench;

namespace {

std::shared_ptr<Studio> plain_set() {
    auto s =
        studio({part("wall", "wall", quad(Vec3(0, 1.5, 0), Vec3(2, 0, 0), Vec3(0, 2, 0)), 0.18F)},
               {disc(Vec3(0, 1.5, 20), Vec3(0, 0, -1), 2.0)});
    s->set.camera.position_m = Vec3(0, 1.5, 2.5);
    s->set.camera.aim_m = Vec3(0, 1.5, 0);
    s->set.camera.f_number = 8.0;
    s->set.camera.iso = 100.0;
    // Metered: H = C N² / S = 160 lx·s at the wall, a disc of 2 m at 20 m: F = 4 / 404.
    s->emitters[0].exitance = 160.0 / (4.0 / 404.0);
    s->emitters[0].hot_spot = 0.0;
    s->rays = std::make_shared<RayScene>();
    s->rays->add(s->scene.parts[0].mesh, ray_mask::background);
    s->rays->commit();
    return s;
}

} // namespace

TEST_CASE("A grey card under the light the camera is set for comes out at code 118") {
    StillOptions options;
    options.width_px = 32;
    options.height_px = 24;
    options.samples = 16;
    options.surfaces.specular = false;
    options.indirect = false;
    options.display =
        Display{display_exposure(plain_set()->set.camera, MeterSettings{}), true, false};
    double last = 0.0;
    options.progress = [&](double share) {
        CHECK(share >= last);
        last = share;
        return true;
    };
    const Result<Still> still = render_still(plain_set(), options);
    INFO((still.ok() ? "" : still.problem().message()));
    REQUIRE(still.ok());
    CHECK(last == 1.0);
    CHECK(still.value().samples == 16);
    CHECK_FALSE(still.value().device.empty());
    const RgbaImage& picture = still.value().picture;
    // 117.65 by IEC 61966-2-1; the wall's corners get a little less light than its middle.
    const std::size_t middle = 4 * (12 * 32 + 16);
    for (std::size_t c = 0; c < 3; ++c) CHECK(static_cast<int>(picture.pixels[middle + c]) == 118);
}

TEST_CASE("A still can be stopped, and sizes that make no sense are refused") {
    StillOptions options;
    options.width_px = options.height_px = 8;
    options.samples = 64;
    options.indirect = false;
    options.progress = [](double) { return false; };
    CHECK_FALSE(render_still(plain_set(), options).ok());
    options.progress = nullptr;
    options.width_px = 0;
    const Result<Still> refused = render_still(plain_set(), options);
    REQUIRE_FALSE(refused.ok());
    CHECK(refused.problem().message().find("8192") != std::string::npos);
}

TEST_CASE("A PNG file holds the picture and says that it is sRGB") {
    RgbaImage image;
    image.width = 3;
    image.height = 2;
    for (int i = 0; i < 3 * 2 * 4; ++i)
        image.pixels.push_back(static_cast<std::uint8_t>(10 * i % 251));
    const auto file = std::filesystem::temp_directory_path() / "keystead_png_test.png";
    REQUIRE_FALSE(write_png(image, file).has_value());
    // Read by another reader than wrote it: stb_image checks lengths, not our chunk.
    int w = 0, h = 0, n = 0;
    unsigned char* read = stbi_load(file.c_str(), &w, &h, &n, 3);
    REQUIRE(read != nullptr);
    CHECK(w == 3);
    CHECK(h == 2);
    CHECK(n == 3);
    for (std::size_t i = 0; i < 6; ++i)
        for (std::size_t c = 0; c < 3; ++c) CHECK(read[3 * i + c] == image.pixels[4 * i + c]);
    stbi_image_free(read);
    std::filesystem::remove(file);
    const std::vector<std::uint8_t> bytes = png_bytes(image);
    // PNG specification 11.3.3.5: between IHDR and PLTE/IDAT, one byte, intent 0.
    CHECK(std::memcmp(bytes.data() + 33 + 4, "sRGB", 4) == 0);
    const auto missing = write_png(image, "/nowhere/at/all.png");
    REQUIRE(missing.has_value());
    CHECK(missing->message().find("/nowhere/at/all.png") != std::string::npos);
}

TEST_CASE("A picture made in tiles is the picture made at once") {
    const auto loaded = load_set(KEYSTEAD_SOURCE_DIR "/assets/sets/harbour-choir-short.json");
    REQUIRE(loaded.ok());
    const auto set = make_studio(loaded.value().set);
    for (const FillerKind kind : {FillerKind::processor, FillerKind::opengl}) {
        StillOptions options;
        options.width_px = 100;
        options.height_px = 70;
        options.samples = 8;
        options.indirect = false;
        options.filler = kind;
        options.linear = true;
        const Result<Still> whole = render_still(set, options);
        options.tile_px = 32;
        double last = 0.0;
        options.progress = [&](double share) {
            CHECK(share >= last);
            last = share;
            return true;
        };
        const Result<Still> tiled = render_still(set, options);
        REQUIRE(whole.ok());
        REQUIRE(tiled.ok());
        CHECK(last == Approx(1.0));
        const auto &a = whole.value().linear.pixels, &b = tiled.value().linear.pixels;
        REQUIRE(a.size() == b.size());
        // OpenGL's shadow maps are fitted to what each tile sees; edges move by a part of a texel.
        double sum = 0.0, difference = 0.0;
        for (std::size_t i = 0; i < a.size(); ++i) {
            sum += static_cast<double>(a[i].g);
            difference += std::abs(static_cast<double>(a[i].g - b[i].g));
        }
        INFO((kind == FillerKind::opengl ? "OpenGL" : "processor"));
        CHECK(difference / sum < (kind == FillerKind::opengl ? 0.01 : 0.0005));
    }
}

TEST_CASE("A still can be stopped, and is told how far it is", "[still]") {
    StillOptions options;
    options.width_px = 64;
    options.height_px = 64;
    options.tile_px = 32;
    options.indirect = false;
    options.filler = FillerKind::processor;
    int asked = 0;
    options.progress = [&](double) { return ++asked < 3; };
    const Result<Still> still = render_still(plain_set(), options);
    REQUIRE_FALSE(still.ok());
    CHECK(still.problem().message().find("stopped") != std::string::npos);
    CHECK(asked == 3);
}

TEST_CASE("The processor makes the picture where OpenGL is missing or made in software",
          "[still]") {
    using enum FillerKind;
    CHECK(resolved(automatic, true, false) == opengl);
    CHECK(resolved(automatic, true, true) == processor);
    CHECK(resolved(automatic, false, false) == processor);
    CHECK(resolved(opengl, true, true) == opengl);
    CHECK(resolved(processor, true, false) == processor);
    CHECK(resolved_for_window(automatic, false, 16) == processor);
    CHECK(resolved_for_window(automatic, false, 2) == opengl);
    CHECK(resolved_for_window(automatic, true, 2) == processor);
    CHECK(resolved_for_window(opengl, false, 16) == opengl);
    CHECK(filler_kind("processor") == processor);
    CHECK_FALSE(filler_kind("best").has_value());
}
