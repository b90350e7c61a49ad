#include "engine/ui/window.h"
#include "engine/ui/workshop.h"
#include "tests/engine/ui/sets.h"

#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <stb/stb_image.h>
#include <thread>
#include <unistd.h>

using namespace keystead;

namespace {

struct Picture {
    int width = 0, height = 0;
    unsigned char* pixels = nullptr;
    explicit Picture(const std::string& file) {
        int channels = 0;
        pixels = stbi_load(file.c_str(), &width, &height, &channels, 3);
    }
    ~Picture() { stbi_image_free(pixels); }
    Picture(const Picture&) = delete;
    Picture& operator=(const Picture&) = delete;
    unsigned at(int x, int y) const {
        const unsigned char* p = pixels + 3 * (y * width + x);
        return static_cast<unsigned>(p[0]) << 16U | static_cast<unsigned>(p[1]) << 8U | p[2];
    }
};

} // namespace

TEST_CASE("The whole window can be rendered into a file without a screen") {
    const std::string file = (std::filesystem::temp_directory_path() /
                              ("keystead-shot-" + std::to_string(getpid()) + ".png"))
                                 .string();
    WindowOptions options;
    options.set_file = std::string(KEYSTEAD_SOURCE_DIR) + "/assets/sets/overreach.json";
    options.screenshot = file;
    options.theme = "light";
    options.width_px = 900, options.height_px = 600;
    // The test is about the window; the picture in it has tests of its own.
    options.settle_s = 0.5;
    REQUIRE(run_window(options) == 0);
    {
        const Picture picture(file);
        REQUIRE(picture.pixels != nullptr);
        CHECK(picture.width == 900);
        CHECK(picture.height == 600);
        CHECK(picture.at(250, 4) == 0xE3E2DFU);   // menu line
        CHECK(picture.at(2, 60) == 0xA6A6A6U);    // lens surround, R = G = B
        CHECK(picture.at(890, 420) == 0xECEBE8U); // side panel
    }
    std::filesystem::remove(file);
}

TEST_CASE("A set that cannot be read ends with code 2") {
    WindowOptions options;
    options.set_file = "/nowhere/nothing.json";
    options.screenshot = "/tmp/never-written.png";
    CHECK(run_window(options) == 2);
}

TEST_CASE("The workshop's results carry the revision they were made from, and the newest wins") {
    ui::Workshop workshop({});
    Set set = ui::testing::example("overreach");
    workshop.request(7, set, true);
    set.room.ceiling_m = 3.3;
    workshop.request(8, set, true);
    std::uint64_t studio = 0, review = 0;
    const auto end = std::chrono::steady_clock::now() + std::chrono::seconds(120);
    while (review < 8 && std::chrono::steady_clock::now() < end) {
        for (const ui::Finished& each : workshop.collect()) {
            CHECK(each.revision >= std::max(studio, review));
            if (each.studio) studio = each.revision;
            if (each.studio && each.revision == 8)
                CHECK(each.studio->set.room.ceiling_m == Approx(3.3));
            if (each.review) review = each.revision;
        }
        std::this_thread::sleep_for(std::chrono::milliseconds(5));
    }
    CHECK(studio == 8);
    CHECK(review == 8);
}
