// Every kind of modifier in the picture against the simulation's readings of the same emitter, at
// the places that the picture itself shows.
#include "sim/light/emitter_face.h"
#include "sim/light/measured.h"
#include "sim/light/meter.h"
#include "sim/photometry/distribution.h"
#include "tests/engine/render/bench.h"

#include <catch2/catch.hpp>

using namespace bench;

namespace {

constexpr int side_px = 96; ///< a pixel is a mean: fine ones, of which every seventh is compared
constexpr double distance_m = 1.3;

ScenePart wall() {
    return part("wall", "wall", quad(Vec3(0), Vec3(2, 0, 0), Vec3(0, 2, 0)), 1.0F);
}

double reading(const Emitter& emitter, const Vec3& place_m) {
    Probe probe;
    probe.position_m = place_m;
    return exposure_at(emitter, probe, nullptr, 2584);
}

/// Largest difference over the largest reading, so that dark places count by what is seen there.
double largest_difference(const Emitter& emitter, int samples) {
    auto r = renderer();
    r->show(studio({wall()}, {emitter}));
    r->look(bench::view(Vec3(0.3, 0.2, 3.0), Vec3(0.3, 0.2, 0.0), 0.24, side_px, side_px), side_px,
            side_px);
    converge(*r, samples);
    const LinearImage picture = r->read_linear();
    const std::vector<glm::vec4> places = r->read_positions();
    double largest = 0.0, brightest = 0.0;
    for (std::size_t i = 0; i < places.size(); i += 7) {
        const double expected = reading(emitter, Vec3(places[i]));
        const double shown = pi * static_cast<double>(picture.pixels[i].g);
        brightest = std::max(brightest, expected);
        largest = std::max(largest, std::abs(shown - expected));
    }
    REQUIRE(brightest > 0.0);
    return largest / brightest;
}

Emitter dish(double width_m = 0.4) {
    Emitter made = disc(Vec3(0, 0, distance_m), Vec3(0, 0, -1), 0.5 * width_m);
    made.front.half_width_m = made.front.half_height_m = 0.5 * width_m;
    return made;
}

void finish(Emitter& emitter) {
    emitter.area_m2 = face_area_m2(emitter);
    emitter.beam.gain = emitter_gain(emitter);
}

} // namespace

TEST_CASE("A gathering reflector's picture is its reading") {
    for (const double exponent : {0.6, 4.0, 30.0}) {
        Emitter emitter = dish();
        emitter.beam.exponent = exponent;
        finish(emitter);
        INFO("exponent " << exponent);
        CHECK(largest_difference(emitter, 64) < 0.01);
    }
}

TEST_CASE("A cut-off's picture is its reading") {
    Emitter emitter = dish(0.08);
    emitter.beam = {1.0, 16.0, 4.0, 1.0};
    finish(emitter);
    CHECK(largest_difference(emitter, 512) < 0.01);
}

TEST_CASE("A grid with grey walls reads what it shows") {
    Emitter emitter = dish(0.3);
    emitter.grid = Grid{};
    emitter.grid->cell_width_m = 0.01;
    emitter.grid->cell_depth_m = 0.02;
    emitter.grid->wall_reflection = 0.05;
    finish(emitter);
    CHECK(largest_difference(emitter, 128) < 0.01);
}

TEST_CASE("A rim and flaps throw the shadow that the readings have") {
    Emitter emitter = dish(0.2);
    emitter.front.lip_m = 0.05;
    BarnDoors doors;
    doors.top_deg = 10.0;
    doors.right_deg = -30.0;
    doors.left_deg = 40.0;
    set_doors(emitter.front, doors);
    finish(emitter);
    // An edge in a sampled penumbra is as fine as the samples are many.
    CHECK(largest_difference(emitter, 512) < 0.02);
}

TEST_CASE("A dish with its deflector reads what it shows") {
    Emitter emitter = dish(0.55);
    emitter.shape = ModifierShape::ring;
    emitter.inner_width_m = 0.16;
    emitter.deflector = 0.16 / 0.55;
    finish(emitter);
    CHECK(largest_difference(emitter, 128) < 0.01);
}

TEST_CASE("Both umbrellas and a lantern read what they show") {
    Emitter hollow = dish(0.9);
    hollow.shape = ModifierShape::umbrella;
    hollow.depth_m = 0.2;
    hollow.front.lamp_ahead_m = 0.25;
    hollow.front.lamp_radius_m = 0.07;
    finish(hollow);
    CHECK(largest_difference(hollow, 256) < 0.02);
    Emitter bulging = dish(0.9);
    bulging.front = {};
    bulging.shape = ModifierShape::umbrella;
    bulging.depth_m = 0.2;
    bulging.bulges = true;
    finish(bulging);
    CHECK(largest_difference(bulging, 256) < 0.02);
    Emitter ball = dish(0.6);
    ball.front = {};
    ball.shape = ModifierShape::bare;
    finish(ball);
    CHECK(largest_difference(ball, 256) < 0.02);
}

TEST_CASE("A measured distribution's picture is its reading") {
    // Type C, four planes and a wrap: wide toward +x, narrow toward -x.
    Distribution file;
    for (int v = 0; v <= 90; v += 5) file.vertical_deg.push_back(v);
    for (int h = 0; h <= 360; h += 90) file.horizontal_deg.push_back(h);
    for (const double exponent : {2.0, 6.0, 20.0, 6.0, 2.0})
        for (const double v : file.vertical_deg)
            file.candela.push_back(1000.0 *
                                   std::pow(std::max(0.0, std::cos(radians(v))), exponent));
    for (const ModifierShape shape : {ModifierShape::bare, ModifierShape::disc}) {
        Emitter emitter = dish(0.1);
        emitter.front = {};
        emitter.shape = shape;
        finish(emitter);
        emitter.measured = direction_table(file, 25.0);
        CHECK(largest_difference(emitter, 512) < 0.01);
    }
}
