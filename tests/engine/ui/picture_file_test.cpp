// Saving the picture, and its caption.
#include "engine/ui/picture_file.h"
#include "tests/engine/ui/window_bench.h"

#include <catch2/catch.hpp>
#include <chrono>
#include <filesystem>
#include <stb/stb_image.h>
#include <thread>
#include <unistd.h>

using namespace keystead;
using namespace keystead::ui;
using testing::example;
using Bench = testing::WindowBench;
namespace fs = std::filesystem;

namespace {

std::string clipboard; // ImGui's functions take no state of ours

fs::path scratch(const char* name) {
    return fs::temp_directory_path() / (std::to_string(getpid()) + name);
}

StillEnd wait_for(StillMaker& maker) {
    const auto end = std::chrono::steady_clock::now() + std::chrono::seconds(300);
    while (std::chrono::steady_clock::now() < end) {
        if (auto done = maker.take_end()) return *done;
        std::this_thread::sleep_for(std::chrono::milliseconds(5));
    }
    FAIL("the picture never ended");
    return {};
}

} // namespace

TEST_CASE("Widths are whole numbers of pixels that a picture can have") {
    CHECK(picture_width("1920") == 1920);
    for (const char* wrong : {"", "63", "8193", "19 20", "1920px", "-5", "1e3"})
        CHECK_FALSE(picture_width(wrong));
    Camera camera;
    camera.sensor_width_mm = 36.0, camera.sensor_height_mm = 24.0;
    camera.orientation = Orientation::landscape;
    CHECK(picture_height(camera, 1920) == 1280);
    camera.orientation = Orientation::upright;
    CHECK(picture_height(camera, 1280) == 1920);
    CHECK(picture_height(camera, 8192) == widest_picture_px);
}

TEST_CASE("The caption says name, figures, camera and each light that is on") {
    Set set = example("harbour-choir-short");
    set.lights.back().on = false;
    const auto studio = make_studio(set);
    const Review review = review_set(*studio, {.margins = false}, nullptr);
    const std::vector<std::string> lines = caption_lines(set, review);
    REQUIRE(lines.size() == 2 + set.lights.size() - 1);
    CHECK(lines[0].find(set.name + ": ") == 0);
    CHECK(lines[0].find("f/") != std::string::npos);
    CHECK(lines[1].find("ISO") != std::string::npos);
    CHECK(lines[2].find("A ") == 0);
}

TEST_CASE("The band under a picture is as wide as it, and its words are seen") {
    const RgbaImage band = caption_band({"loop, short side, f/8", "camera f/8"}, 640);
    CHECK(band.width == 640);
    REQUIRE(band.pixels.size() == 4U * 640U * static_cast<std::size_t>(band.height));
    CHECK(*std::max_element(band.pixels.begin(), band.pixels.end()) == 255);
    int bright = 0;
    for (std::size_t i = 0; i < band.pixels.size(); i += 4) bright += band.pixels[i] > 120 ? 1 : 0;
    CHECK(bright > 50);
    const RgbaImage picture{640, 2, std::vector<std::uint8_t>(4 * 640 * 2, 7)};
    CHECK(with_band(picture, band).height == band.height + 2);
    CHECK(with_band(picture, caption_band({}, 640)).height == 2);
}

TEST_CASE("A settled picture is made in the background and written whole") {
    const fs::path file = scratch("-still.png");
    StillMaker maker;
    StillOptions options;
    options.width_px = 96, options.height_px = 64, options.samples = 4;
    options.filler = FillerKind::processor;
    options.bounce_paths = 16;
    int woken = 0;
    REQUIRE(maker.start(make_studio(example("harbour-choir-short")), options,
                        caption_band({"a line"}, 96), file, [&] { ++woken; }));
    const StillEnd end = wait_for(maker);
    INFO((end.problem ? end.problem->message() : ""));
    CHECK_FALSE(end.problem);
    CHECK_FALSE(end.stopped);
    CHECK(woken > 0);
    int width = 0, height = 0, channels = 0;
    REQUIRE(stbi_info(file.c_str(), &width, &height, &channels) == 1);
    CHECK(width == 96);
    CHECK(height == 64 + caption_band({"a line"}, 96).height);
    fs::remove(file);
}

TEST_CASE("A picture under way can be stopped, and leaves no file") {
    const fs::path file = scratch("-stopped.png");
    StillMaker maker;
    StillOptions options;
    options.width_px = 1200, options.height_px = 800, options.samples = 4096;
    options.filler = FillerKind::processor;
    const auto studio = make_studio(example("harbour-choir-short"));
    REQUIRE(maker.start(studio, options, {}, file, {}));
    CHECK_FALSE(maker.start(studio, options, {}, file, {}));
    CHECK(maker.progress().busy);
    maker.stop();
    const StillEnd end = wait_for(maker);
    CHECK(end.stopped);
    CHECK_FALSE(fs::exists(file));
    CHECK_FALSE(maker.progress().busy);
}

TEST_CASE("The caption goes to the clipboard") {
    Bench bench("harbour-choir-short");
    ImGui::GetIO().SetClipboardTextFn = [](void*, const char* text) { clipboard = text; };
    ImGui::GetIO().GetClipboardTextFn = [](void*) { return clipboard.c_str(); };
    Outbox out;
    out.wish(Act::copy_caption);
    carry_out(bench.app, out);
    CHECK(clipboard.empty());
    CHECK(bench.app.notice_is_bad);
    const auto studio = make_studio(bench.app.history.set());
    bench.app.review = review_set(*studio, {.margins = false}, nullptr);
    out.wish(Act::copy_caption);
    carry_out(bench.app, out);
    CHECK(clipboard.find(bench.app.history.set().name) == 0);
    CHECK_FALSE(bench.app.notice_is_bad);
}

TEST_CASE("The sheet that asks how to save opens, takes a width, and Escape closes it") {
    Bench bench("harbour-choir-short");
    bench.press('P', true);
    REQUIRE(bench.app.picture_file.open);
    bench.frames(3);
    bench.table.key(ImGuiKey_Escape, true), bench.frames(1);
    bench.table.key(ImGuiKey_Escape, false), bench.frames(1);
    CHECK_FALSE(bench.app.picture_file.open);
    Outbox out;
    out.wish(Act::picture_sheet), out.wish(Act::choose_picture);
    carry_out(bench.app, out);
    CHECK(bench.app.files.pictures);
    CHECK(bench.app.files.saving);
    bench.frames(2);
    bench.app.picture_file.choice.as_seen = true;
    out.wish(Act::save_picture_to, "/tmp/never.png");
    carry_out(bench.app, out);
    REQUIRE(bench.app.picture_file.seen_to);
    CHECK_FALSE(bench.app.picture_file.open);
}
