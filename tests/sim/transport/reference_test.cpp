// The reference path tracer against closed forms and against itself.
#include "sim/light/configuration_factor.h"
#include "sim/light/meter.h"
#include "support/helpers/checks.h"
#include "tests/sim/transport/reference_bench.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <tbb/task_arena.h>

using namespace keystead;
using namespace reference_bench;

namespace {

/// Matt card of 2 x 2 m on the floor, seen from above where `light` does not hide it.
Studio card_under(Emitter light, float albedo) {
    return studio(
        {matt_part(quad(Vec3(0.0), Vec3(0, 0, 1), Vec3(1, 0, 0)), albedo, ray_mask::gear)},
        {std::move(light)});
}

/// A room of uniform reflectance whose six walls are all lights of one exitance.
Studio furnace(float albedo) {
    const Vec3 size(2.0, 2.5, 3.0), c = 0.5 * size;
    std::vector<ScenePart> parts;
    const auto meshes = walls(size);
    for (std::size_t i = 0; i < 6; ++i) {
        parts.push_back(matt_part(meshes[i], albedo, ray_mask::emitter));
        parts.back().emitting_light = static_cast<int>(i);
    }
    return studio(std::move(parts), {rectangle({0, c.y, c.z}, {1, 0, 0}, size.z, size.y),
                                     rectangle({size.x, c.y, c.z}, {-1, 0, 0}, size.z, size.y),
                                     rectangle({c.x, 0, c.z}, {0, 1, 0}, size.x, size.z),
                                     rectangle({c.x, size.y, c.z}, {0, -1, 0}, size.x, size.z),
                                     rectangle({c.x, c.y, 0}, {0, 0, 1}, size.x, size.y),
                                     rectangle({c.x, c.y, size.z}, {0, 0, -1}, size.x, size.y)});
}

} // namespace

TEST_CASE("A closed room that glows evenly reads its own emission over one minus reflectance") {
    // Every bounce adds rho of what was there: (M/pi) (1 + rho + rho² + …), the furnace test.
    const View inside = view({0.7, 1.1, 1.9}, {1.2, 1.4, 0.0}, 0.8, 0.8);
    for (const int bounces : {0, 2, 14}) {
        const float albedo = 0.5F;
        const Studio room = furnace(albedo);
        const Mean seen = mean_green(trace_reference(room, inside, options(12, 12, 64, bounces)));
        const double expected = 1000.0 / pi * (1.0 - std::pow(0.5, bounces + 2)) / 0.5;
        INFO(bounces << " bounces: " << seen.value << " ± " << seen.error << ", expected "
                     << expected);
        CHECK(seen.value == Approx(expected).epsilon(0.005));
        CHECK(std::abs(seen.value - expected) < 4.0 * seen.error);
        if (bounces == 14) CHECK_ROW(251, seen.value * pi / 1000.0);
    }
}

TEST_CASE("A card's radiance is its irradiance by formula") {
    // Disc and rectangle: closed-form configuration factors (Siegel and Howell).
    constexpr float albedo = 0.18F;
    const Emitter round = disc({0, 1.5, 0}, {0, -1, 0}, 0.5);
    const Emitter square = rectangle({0, 1.0, 0}, {0, -1, 0}, 0.6, 1.1);
    // A window of 10 mm on the floor below the middle, seen past the light's edge.
    const View small = view({1.4, 1.2, 0}, {0, 0, 0}, 0.005, 0.005);
    struct Case {
        const char* name;
        Emitter light;
        double factor;
    };
    for (const Case& one : {Case{"disc", round, disc_on_axis(0.5, 1.5)},
                            Case{"rectangle", square, rectangle_parallel(0.6, 1.1, 1.0)}}) {
        const Studio bench = card_under(one.light, albedo);
        const Mean seen = mean_green(trace_reference(bench, small, options(8, 8, 256, 0)));
        const double expected = static_cast<double>(albedo) / pi * 1000.0 * one.factor;
        INFO(one.name << ": " << seen.value << " ± " << seen.error << ", expected " << expected);
        CHECK(seen.value == Approx(expected).epsilon(0.005));
        CHECK(std::abs(seen.value - expected) < 4.0 * seen.error + 1e-4 * expected);
        const double factor = seen.value * pi / (1000.0 * static_cast<double>(albedo));
        if (one.light.shape == ModifierShape::disc)
            CHECK_ROW(252, factor);
        else
            CHECK_ROW(253, factor);
    }
}

TEST_CASE("Light of every kind of face is what the meter reads of it") {
    constexpr float albedo = 0.5F;
    Emitter gridded = disc({0.2, 1.5, 0.1}, {-0.15, -1, -0.1}, 0.4);
    gridded.shape = ModifierShape::octagon;
    gridded.area_m2 = 2.0 * std::tan(pi / 8.0) * 0.64;
    gridded.grid = Grid{};
    gridded.grid->cell = GridCell::square;
    gridded.grid->cell_width_m = 0.05;
    gridded.grid->cell_depth_m = 0.06;
    gridded.grid->open_fraction = 0.9;
    Emitter canopy = disc({0, 1.4, 0}, {0.1, -1, 0}, 0.45);
    canopy.shape = ModifierShape::umbrella;
    canopy.depth_m = 0.2;
    canopy.area_m2 = pi * (0.45 * 0.45 + 0.2 * 0.2);
    canopy.beam.gain = emitter_gain(canopy);
    Emitter bulging = canopy;
    bulging.bulges = true;
    bulging.beam.gain = emitter_gain(bulging);
    Emitter ball = disc({0.1, 0.9, 0}, {0, -1, 0}, 0.1);
    ball.shape = ModifierShape::bare;
    ball.area_m2 = pi * 0.04;
    Emitter cut = rectangle({0, 1.2, 0}, {0, -1, 0}, 0.5, 0.5);
    cut.beam.exponent = 3.0;
    cut.beam.cutoff_half_deg = 40.0;
    cut.beam.cutoff_edge_deg = 10.0;
    cut.beam.gain = emitter_gain(cut);
    const View small = view({1.4, 1.2, 0}, {0.25, 0, 0}, 0.004, 0.004);
    for (const Emitter& light : {gridded, canopy, bulging, ball, cut}) {
        const Studio bench = card_under(light, albedo);
        const Mean seen = mean_green(trace_reference(bench, small, options(8, 8, 256, 0)));
        Probe probe;
        probe.position_m = Vec3(0.25, 0, 0);
        probe.facing = Vec3(0, 1, 0);
        const double expected =
            static_cast<double>(albedo) / pi * exposure_at(light, probe, nullptr, 4181);
        INFO("shape " << static_cast<int>(light.shape) << ": " << seen.value << " ± " << seen.error
                      << ", metered " << expected);
        CHECK(seen.value == Approx(expected).epsilon(0.005));
    }
}

TEST_CASE("A mirror shows the light as bright as it is, less what the mirror takes") {
    ScenePart mirror =
        matt_part(quad(Vec3(0.0), Vec3(0, 0, 1), Vec3(1, 0, 0)), 0.8F, ray_mask::gear);
    mirror.material.metal = true;
    mirror.material.roughness = 0.05F;
    const Studio bench = studio({mirror}, {rectangle({-0.8, 1.0, 0}, {0.7, -1, 0}, 0.8, 0.8)});
    // Straight into the mirrored face's middle.
    const Mean seen = mean_green(
        trace_reference(bench, view({0.8, 1.0, 0}, {0, 0, 0}, 0.01, 0.01), options(8, 8, 64, 0)));
    const double cosine = 1.0 / std::hypot(0.8, 1.0);
    const double fresnel = 0.8 + 0.2 * std::pow(1.0 - cosine, 5.0); // Schlick, 1994
    INFO(seen.value << " ± " << seen.error);
    CHECK(seen.value == Approx(fresnel * 1000.0 / pi).epsilon(0.01));
}

TEST_CASE("A scrim lit from behind sends on its share of what falls on it") {
    ScenePart scrim = matt_part(quad({0, 1, 0}, {1, 0, 0}, {0, 0, -1}), 0.3F, ray_mask::panel);
    scrim.material.transmission = 0.4F;
    const Studio bench = studio({scrim}, {disc({0, 2.006, 0}, {0, -1, 0}, 0.3)});
    const Mean seen = mean_green(trace_reference(
        bench, view({0.01, 0.2, 0}, {0.0, 1, 0}, 0.01, 0.01), options(8, 8, 256, 0)));
    const double expected = 0.4 / pi * 1000.0 * disc_on_axis(0.3, 1.0);
    INFO(seen.value << " ± " << seen.error << ", expected " << expected);
    CHECK(seen.value == Approx(expected).epsilon(0.02));
    CHECK(std::abs(seen.value - expected) < 4.0 * seen.error);
}

TEST_CASE("The stated error is the spread between seeds") {
    // A grey room with one lamp, where most of what is seen has bounced.
    std::vector<ScenePart> parts;
    for (const auto& mesh : walls({3.0, 2.5, 3.0}))
        parts.push_back(matt_part(mesh, 0.6F, ray_mask::room));
    const Studio room =
        studio(std::move(parts), {rectangle({1.5, 2.0, 1.2}, {0.3, 1, 0}, 0.4, 0.4)});
    const View inside = view({1.5, 1.2, 2.8}, {1.4, 1.2, 0.0}, 0.6, 0.6);
    ReferenceOptions wanted = options(32, 32, 32, 2);
    const ReferencePicture first = trace_reference(room, inside, wanted);
    wanted.seed = 2;
    const ReferencePicture second = trace_reference(room, inside, wanted);
    double between = 0.0, stated = 0.0;
    int within = 0;
    const std::size_t count = first.radiance.size();
    for (std::size_t i = 0; i < count; ++i) {
        const auto difference = static_cast<double>(first.radiance[i].g - second.radiance[i].g);
        const auto a = static_cast<double>(first.standard_error[i].g);
        const auto b = static_cast<double>(second.standard_error[i].g);
        between += difference * difference;
        stated += a * a + b * b;
        within += std::abs(difference) < 3.0 * std::sqrt(a * a + b * b) ? 1 : 0;
    }
    INFO("spread over stated " << std::sqrt(between / stated));
    // 1024 pixels, 14 degrees of freedom each: 3 % to be expected; heavy tails ask for more.
    CHECK_ROW(260, std::sqrt(between / stated));
    CHECK(within > static_cast<int>(count * 97 / 100));
}

TEST_CASE("The same seed gives the same bytes at any number of threads") {
    const Studio room = furnace(0.4F);
    const View inside = view({0.7, 1.1, 1.9}, {1.2, 1.4, 0.0}, 0.8, 0.8);
    const ReferencePicture many = trace_reference(room, inside, options(18, 10, 5, 2));
    ReferencePicture one;
    tbb::task_arena(1).execute([&] { one = trace_reference(room, inside, options(18, 10, 5, 2)); });
    CHECK(many.radiance == one.radiance);
    CHECK(many.standard_error == one.standard_error);
    ReferenceOptions stopping = options(64, 64, 4, 1);
    stopping.progress = [](double) { return false; };
    CHECK_FALSE(trace_reference(room, inside, stopping).complete);
}
