// Room light, modelling lamps, dark bands and cut flashes.
#include "tests/sim/review/bench_sets.h"

#include "sim/light/flash_tail.h"
#include "sim/light/mixed_colour.h"
#include "sim/light/stops.h"

#include <array>
#include <catch2/catch.hpp>

using namespace keystead;
using namespace bench;

namespace {

/// A face that one flash gives `f_number` at ISO 100 with C = 250.
PointReading flash_face(double f_number) {
    PointReading face;
    face.flash_lx_s = 2.5 * f_number * f_number;
    LightAtPoint light;
    light.light = "key";
    light.exposure_lx_s = face.flash_lx_s;
    light.colour_k = 5600.0;
    face.lights = {light};
    return face;
}

Set room_set(double ambient_lx, double shutter_s) {
    Set set;
    set.room.ambient_lx = ambient_lx;
    set.camera.shutter_s = shutter_s;
    Light light;
    light.id = "key";
    light.head.modelling_w = 0.0;
    set.lights = {light};
    return set;
}

} // namespace

TEST_CASE("100 lx of room light are 7.6 stops below f/8 at 1/125 and 2.6 below f/2 at 1/60",
          "[meter]") {
    // E t / H with H = C N² / S, ISO 2720 with C = 250.
    const auto bright = read_shutter(room_set(100.0, 1.0 / 125.0), flash_face(8.0));
    CHECK(bright.room_light->stops_from_flash == Approx(-7.64).margin(0.01));
    const auto dim = read_shutter(room_set(100.0, 1.0 / 60.0), flash_face(2.0));
    CHECK(dim.room_light->stops_from_flash == Approx(-2.58).margin(0.01));
    CHECK(dim.room_light->stops_added == Approx(0.22).margin(0.005));
    CHECK(*dim.flash_k == Approx(5600.0));
    CHECK(*dim.mixed_k < 5300.0);
    CHECK(*dim.mixed_k > 4500.0);
    CHECK_FALSE(read_shutter(room_set(0.0, 1.0 / 60.0), flash_face(2.0)).room_light);
}

TEST_CASE("Curtains of 4 ms darken 22 % of the frame at 1/320 and half of it at 1/500", "[meter]") {
    // Kinematics of two curtains: (travel - exposure) / travel.
    CHECK(read_shutter(room_set(0, 1.0 / 320), flash_face(8)).dark_share ==
          Approx(0.21875).epsilon(1e-9));
    Set set = room_set(0, 1.0 / 500);
    CHECK(read_shutter(set, flash_face(8)).dark_share == Approx(0.5).epsilon(1e-9));
    CHECK(read_shutter(set, flash_face(8)).dark_edge == "the bottom edge");
    set.camera.orientation = Orientation::upright;
    CHECK(read_shutter(set, flash_face(8)).dark_edge.find("side") != std::string::npos);
    set.camera.shutter_s = 1.0 / 200;
    CHECK(read_shutter(set, flash_face(8)).dark_share == 0.0);
    CHECK_FALSE(read_shutter(set, flash_face(8)).beyond_sync);
    // A shutter that syncs at 1/500 has no band there, whatever its curtains are said to do.
    set.camera.sync_s = set.camera.shutter_s = 1.0 / 500;
    CHECK(read_shutter(set, flash_face(8)).dark_share == 0.0);
}

TEST_CASE("Half of a flash is out by t0.5, nine tenths by t0.1, about three times as long",
          "[meter]") {
    CHECK(flash_share_by(0.001, 0.001) == Approx(0.5).epsilon(1e-12));
    const double t01_s = t01_of_t05_s(0.001);
    CHECK(flash_share_by(t01_s, 0.001) == Approx(0.9).epsilon(1e-12));
    // Makers print t0.1 as about three times t0.5 (common practice).
    CHECK(t01_s / 0.001 == Approx(3.0).margin(0.4));
    // Against the area under the curve, summed by the midpoint rule.
    double out = 0.0, all = 0.0;
    for (int i = 0; i < 400000; ++i) {
        const double t = (i + 0.5) * 1e-7;
        all += std::exp2(-t / 0.001);
        if (t < 0.0025) out += std::exp2(-t / 0.001);
    }
    CHECK(flash_share_by(0.0025, 0.001) == Approx(out / all).epsilon(1e-5));
}

TEST_CASE("The row that closes first loses most of a slow flash, a slow shutter none", "[meter]") {
    Camera camera;
    camera.curtain_s = 0.004;
    camera.shutter_s = 0.005;
    CHECK(open_after_flash_s(camera, 0.0) == Approx(0.001));
    CHECK(open_after_flash_s(camera, 1.0) == Approx(0.005));
    // 1 ms of a flash with t0.5 = 1 ms is half of it: one stop.
    CHECK(tail_loss_stops(camera, 0.0, 0.001) == Approx(1.0).epsilon(1e-9));
    const double enough_s = shutter_for_tail_loss_s(camera, 0.001, 0.1);
    camera.shutter_s = enough_s;
    CHECK(tail_loss_stops(camera, 0.0, 0.001) == Approx(0.1).epsilon(1e-9));
    camera.shutter_s = 1.0 / 15.0;
    CHECK(tail_loss_stops(camera, 0.0, 0.001) < 1e-12);
}

TEST_CASE("A 150 W modelling lamp counts by its light over the exposure", "[meter]") {
    // 150 W · 20 lm/W · 1/125 s = 24 lm·s beside 400 W·s · 38 lm/W = 15200 lm·s: 9.3 stops below;
    // at seven stops below full power 2.3. Efficacies: common practice.
    Set set = room_set(0.0, 1.0 / 125.0);
    set.lights[0].head.modelling_w = 150.0;
    const auto full = read_shutter(set, flash_face(8.0));
    CHECK(full.modelling->stops_from_flash == Approx(std::log2(24.0 / 15200.0)).epsilon(1e-9));
    set.lights[0].head.power_stops_below = 7.0;
    CHECK(read_shutter(set, flash_face(8.0)).modelling->stops_from_flash ==
          Approx(-2.31).margin(0.01));
}

TEST_CASE("Correlated colour temperatures of standard illuminants come out", "[meter][colour]") {
    // CIE 15: illuminant A at (0.44757, 0.40745) is 2856 K, D65 at (0.31271, 0.32902) 6504 K.
    CHECK(correlated_colour_k({0.44757, 0.40745}) == Approx(2856.0).margin(5.0));
    CHECK(correlated_colour_k({0.31271, 0.32902}) == Approx(6504.0).margin(5.0));
}

TEST_CASE("A mixture of lamps lies between them, nearer to the stronger", "[meter][colour]") {
    const auto mixed = [](double warm, double cool) {
        return *mixed_colour_k(std::array{ColourShare{3000.0, warm}, ColourShare{5600.0, cool}});
    };
    CHECK(mixed(0.0, 1.0) == Approx(5600.0));
    CHECK(mixed(1.0, 0.0) == Approx(3000.0));
    CHECK(mixed(1.0, 1.0) > 3000.0);
    CHECK(mixed(1.0, 1.0) < 5600.0);
    CHECK(mixed(1.0, 3.0) > mixed(1.0, 1.0));
    CHECK(*mixed_colour_k(std::array{ColourShare{4000.0, 1.0}, ColourShare{4000.0, 2.0}}) ==
          4000.0);
    CHECK_FALSE(mixed_colour_k(std::array{ColourShare{4000.0, 0.0}}));
}

TEST_CASE("Shutter times are set to the dial's marks", "[meter]") {
    CHECK(shutter_mark_at_least_s(1.0 / 200) == Approx(1.0 / 200));
    CHECK(shutter_mark_at_least_s(1.0 / 190) == Approx(1.0 / 160));
    CHECK(shutter_mark_at_least_s(1.0 / 130) == Approx(1.0 / 125));
    CHECK(shutter_words(1.0 / 125.0) == "1/125 s");
}

TEST_CASE("Bands, leaks and cut flashes are findings whose remedy makes them go",
          "[meter][review]") {
    Set set = plain_set();
    set.lights = {light_at("key", "octa-90", {-1.0, 2.2, 1.2}, {0, 1.59, 0.08})};
    set.lights[0].head.flash_t05_s = 1.0 / 600.0;
    set.camera.shutter_s = 1.0 / 320.0;
    const Review band = quick_review(set);
    REQUIRE(finding(band, "sync-band", "camera") != nullptr);
    CHECK(finding(band, "sync-band")->message.find("22 %") != std::string::npos);
    CHECK(finding(band, "sync-band")->remedy == "Set 1/200 s or longer.");

    set.camera.shutter_s = 1.0 / 200.0;
    const Review cut = quick_review(set);
    CHECK(finding(cut, "sync-band") == nullptr);
    REQUIRE(finding(cut, "flash-tail-cut", "key") != nullptr);
    const std::string& remedy = finding(cut, "flash-tail-cut")->remedy;
    REQUIRE(remedy.starts_with("Set 1/"));
    set.camera.shutter_s = 1.0 / std::stod(remedy.substr(6));
    CHECK(finding(quick_review(set), "flash-tail-cut") == nullptr);

    set.lights[0].head.power_stops_below = 6.0;
    set.room.ambient_lx = 400.0;
    set.camera.shutter_s = 1.0 / 60.0;
    const Review leak = quick_review(set);
    REQUIRE(finding(leak, "ambient-leak", "room") != nullptr);
    CHECK(finding(leak, "ambient-leak")->remedy.starts_with("Set 1/200 s"));
    CHECK(finding(leak, "ambient-leak")->message.find("warm cast") != std::string::npos);
    CHECK(finding(leak, "modelling-leak", "camera") != nullptr);
    set.room.ambient_lx = 1.0;
    set.lights[0].head.modelling_w = 1.0;
    CHECK(finding(quick_review(set), "ambient-leak") == nullptr);
    CHECK(finding(quick_review(set), "modelling-leak") == nullptr);
}
