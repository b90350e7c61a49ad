// Files of more than eight bits, read back by other readers than wrote them.
#include "engine/render/deep_picture.h"
#include "sim/light/sensor.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <cstring>
#include <filesystem>
#include <stb_image.h>
#include <tinyexr.h>

using namespace keystead;

namespace {

LinearImage ramp() {
    LinearImage image{64, 2, {}};
    for (int i = 0; i < 128; ++i) {
        const auto v = static_cast<float>(i) / 127.0F;
        image.pixels.emplace_back(2.0F * v, v, 0.5F * v);
    }
    return image;
}

std::filesystem::path place(const char* name) {
    return std::filesystem::temp_directory_path() / name;
}

} // namespace

TEST_CASE("A PNG of 16 bits holds the sRGB curve to a 65535th") {
    Display display;
    display.soft_shoulder = false;
    display.exposure = 0.5;
    const LinearImage linear = ramp();
    const DeepPicture deep = develop_deep(linear, display);
    const auto file = place("keystead_deep_test.png");
    REQUIRE_FALSE(write_deep_png(deep, file).has_value());
    int w = 0, h = 0, n = 0;
    unsigned short* read = stbi_load_16(file.c_str(), &w, &h, &n, 0);
    REQUIRE(read != nullptr);
    CHECK(stbi_is_16_bit(file.c_str()) == 1);
    REQUIRE(w == 64);
    REQUIRE(h == 2);
    REQUIRE(n == 3);
    for (std::size_t i = 0; i < 128; ++i) {
        // IEC 61966-2-1 in double precision.
        const double want = 65535.0 * srgb_encode(0.5 * static_cast<double>(linear.pixels[i].g));
        CHECK(std::abs(read[3 * i + 1] - want) < 1.0);
    }
    stbi_image_free(read);
    std::filesystem::remove(file);
    const Outcome nowhere = write_deep_png(deep, "/nowhere/at/all.png");
    REQUIRE(nowhere.has_value());
    CHECK(nowhere->message().find("/nowhere/at/all.png") != std::string::npos);
}

TEST_CASE("An OpenEXR file holds the exposed light and what 1.0 is in cd·s/m²") {
    Display display;
    display.exposure = 0.02;
    const LinearImage linear = ramp();
    const auto file = place("keystead_linear_test.exr");
    REQUIRE_FALSE(write_exr(linear, display, file).has_value());
    float* rgba = nullptr;
    int w = 0, h = 0;
    const char* error = nullptr;
    REQUIRE(LoadEXR(&rgba, &w, &h, file.c_str(), &error) == TINYEXR_SUCCESS);
    REQUIRE(w == 64);
    REQUIRE(h == 2);
    for (std::size_t i = 0; i < 128; ++i)
        for (int c = 0; c < 3; ++c)
            CHECK(rgba[4 * i + static_cast<std::size_t>(c)] ==
                  Approx(0.02F * linear.pixels[i][c]).epsilon(1e-6));
    std::free(rgba); // NOLINT: allocated by the library
    EXRVersion version;
    REQUIRE(ParseEXRVersionFromFile(&version, file.c_str()) == TINYEXR_SUCCESS);
    EXRHeader header;
    InitEXRHeader(&header);
    REQUIRE(ParseEXRHeaderFromFile(&header, &version, file.c_str(), &error) == TINYEXR_SUCCESS);
    bool found = false;
    for (int i = 0; i < header.num_custom_attributes; ++i)
        if (std::string(header.custom_attributes[i].name) == "cd_s_per_m2") {
            float value = 0.0F;
            std::memcpy(&value, header.custom_attributes[i].value, 4);
            CHECK(value == Approx(50.0F));
            found = true;
        }
    CHECK(found);
    FreeEXRHeader(&header);
    std::filesystem::remove(file);
    CHECK(write_exr(linear, display, "/nowhere/at/all.exr").has_value());
}
