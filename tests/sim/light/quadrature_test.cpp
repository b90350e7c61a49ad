// Readings by quadrature over the face against closed forms: nothing shades, 256 points.
#include "sim/light/configuration_factor.h"
#include "sim/light/grid.h"
#include "sim/light/meter.h"
#include "support/helpers/emitters.h"

#include <catch2/catch.hpp>

using namespace keystead;

namespace {

/// 0.1 % at the points a reading takes.
constexpr double tolerance = 1e-3;

Probe probe_at(const Vec3& position_m, const Vec3& facing = Vec3(0, 0, -1)) {
    Probe probe;
    probe.position_m = position_m;
    probe.facing = facing;
    return probe;
}

Emitter disc(double radius_m) {
    return emitters::face(ModifierShape::disc, 2 * radius_m, 2 * radius_m, 1.0);
}

} // namespace

TEST_CASE("A disc's reading is its closed form on and off the axis", "[quadrature]") {
    for (const double distance_m : {0.8, 1.2, 2.0, 4.0}) {
        CHECK(exposure_at(disc(0.45), probe_at({0, 0, distance_m}), nullptr) ==
              Approx(disc_on_axis(0.45, distance_m)).epsilon(tolerance));
        CHECK(exposure_at(disc(0.45), probe_at({0.5, 0, distance_m}), nullptr) ==
              Approx(disc_offset_parallel(0.45, distance_m, 0.5)).epsilon(tolerance));
        CHECK(exposure_at(disc(0.45), probe_at({0, 0.8, distance_m}, {0, -1, 0}), nullptr) ==
              Approx(disc_offset_perpendicular(0.45, distance_m, 0.8)).epsilon(tolerance));
    }
}

TEST_CASE("A ring's reading is the difference of two discs", "[quadrature]") {
    Emitter ring = disc(0.35);
    ring.shape = ModifierShape::ring;
    ring.inner_width_m = 0.4;
    ring.area_m2 = face_area_m2(ring);
    for (const double distance_m : {0.6, 1.2, 3.0})
        CHECK(exposure_at(ring, probe_at({0.1, 0.2, distance_m}), nullptr) ==
              Approx(disc_offset_parallel(0.35, distance_m, std::hypot(0.1, 0.2)) -
                     disc_offset_parallel(0.2, distance_m, std::hypot(0.1, 0.2)))
                  .epsilon(tolerance));
}

TEST_CASE("A box's and a strip's reading is the rectangle's closed form", "[quadrature]") {
    for (const double distance_m : {0.8, 1.2, 2.0, 4.0}) {
        const Emitter box = emitters::face(ModifierShape::rectangle, 0.6, 0.9, 1.0);
        CHECK(exposure_at(box, probe_at({0.5, 0.2, distance_m}), nullptr) ==
              Approx(rectangle_parallel(0.6, 0.9, distance_m, {0.5, 0.2})).epsilon(tolerance));
        const Emitter strip = emitters::face(ModifierShape::rectangle, 0.3, 1.2, 1.0);
        CHECK(exposure_at(strip, probe_at({0, 0, distance_m}), nullptr) ==
              Approx(rectangle_parallel(0.3, 1.2, distance_m)).epsilon(tolerance));
        const std::vector<Vec3> corners = {
            {-0.3, -0.45, 0}, {0.3, -0.45, 0}, {0.3, 0.45, 0}, {-0.3, 0.45, 0}};
        const Vec3 point(-0.4, 0.1, distance_m), normal = glm::normalize(Vec3(0.5, -0.3, -0.8));
        CHECK(exposure_at(box, probe_at(point, normal), nullptr) ==
              Approx(polygon_factor(corners, point, normal)).epsilon(tolerance));
    }
}

TEST_CASE("An octagon's reading is Lambert's polygon formula", "[quadrature]") {
    const double across_flats_m = 2 * 0.6 * std::cos(pi / 8);
    const Emitter octa =
        emitters::face(ModifierShape::octagon, across_flats_m, across_flats_m, 1.0);
    for (const double distance_m : {0.8, 1.5, 3.0})
        for (const double aside_m : {0.0, 0.7})
            CHECK(exposure_at(octa, probe_at({aside_m, 0.1, distance_m}), nullptr) ==
                  Approx(
                      polygon_factor(octagon_vertices(0.6), {aside_m, 0.1, distance_m}, {0, 0, -1}))
                      .epsilon(tolerance));
}

TEST_CASE("A gridded disc's reading is the closed form's integral", "[quadrature]") {
    for (const double ratio : {0.5, 1.0}) {
        Emitter gridded = disc(0.6);
        gridded.grid.emplace();
        gridded.grid->cell_width_m = 0.05;
        gridded.grid->cell_depth_m = 0.05 / ratio;
        gridded.grid->open_fraction = 1.0;
        gridded.grid->wall_reflection = 0.0;
        for (const double distance_m : {1.5, 2.5})
            CHECK(exposure_at(gridded, probe_at({0, 0, distance_m}), nullptr) ==
                  Approx(gridded_disc_on_axis(0.6, distance_m, ratio)).epsilon(2 * tolerance));
        gridded.grid->open_fraction = 0.9;
        CHECK(exposure_at(gridded, probe_at({0, 0, 1.5}), nullptr) ==
              Approx(0.9 * gridded_disc_on_axis(0.6, 1.5, ratio)).epsilon(2 * tolerance));
    }
}

TEST_CASE("An umbrella gives the flux through its rim: the same as the disc that closes it",
          "[quadrature]") {
    // A uniform cap of radiance L seen from in front fills the same directions as its rim's disc
    // of radiance L wherever the whole rim is in view, so their factors agree on the axis.
    Emitter cap = disc(0.5);
    cap.shape = ModifierShape::umbrella;
    cap.depth_m = 0.21;
    cap.area_m2 = face_area_m2(cap);
    for (const double distance_m : {0.8, 1.5, 3.0}) {
        CHECK(exposure_at(cap, probe_at({0, 0, distance_m}), nullptr) ==
              Approx(disc_on_axis(0.5, distance_m)).epsilon(tolerance));
        CHECK(exposure_at(cap, probe_at({0.9, 0, distance_m}), nullptr, 2048) ==
              Approx(disc_offset_parallel(0.5, distance_m, 0.9)).epsilon(4 * tolerance));
    }
}

TEST_CASE("A bare lamp's reading is a sphere's: I over distance squared, exactly", "[quadrature]") {
    // Siegel and Howell: a sphere of radius r at distance d facing the receptor, F = r²/d².
    const Emitter bare = emitters::face(ModifierShape::bare, 0.1, 0.1, 1.0);
    for (const double distance_m : {0.5, 1.5, 4.0})
        CHECK(exposure_at(bare, probe_at({0, 0, distance_m}), nullptr) ==
              Approx(0.05 * 0.05 / (distance_m * distance_m)).epsilon(tolerance));
    CHECK(exposure_at(bare, probe_at({-2, 0, 0}, {1, 0, 0}), nullptr) ==
          Approx(0.05 * 0.05 / 4).epsilon(2 * tolerance));
}

TEST_CASE("A dome sees an extended source by the cardioid", "[quadrature]") {
    // Dome reading facing the source = half (flat reading + scalar part): for a disc on the axis
    // ∫(1+cos)/2 dω = pi (1-c) + pi sin²/2, with c the cosine of the rim's angle.
    for (const double distance_m : {0.8, 1.5}) {
        Probe probe = probe_at({0, 0, distance_m});
        probe.receptor = Receptor::dome;
        const double c = distance_m / std::hypot(distance_m, 0.45);
        const double expected = ((1 - c) * pi + pi * (1 - c * c) / 2) / pi;
        CHECK(exposure_at(disc(0.45), probe, nullptr) == Approx(expected).epsilon(tolerance));
    }
}

TEST_CASE("Power scales a reading and a light that is off reads nothing", "[quadrature]") {
    Emitter emitter = disc(0.45);
    const double full = exposure_at(emitter, probe_at({0, 0, 1.2}), nullptr);
    emitter.power = 0.25;
    CHECK(exposure_at(emitter, probe_at({0, 0, 1.2}), nullptr) == Approx(0.25 * full));
    emitter.power = 0.0;
    CHECK(exposure_at(emitter, probe_at({0, 0, 1.2}), nullptr) == 0.0);
}
