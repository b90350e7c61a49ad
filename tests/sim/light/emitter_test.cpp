#include "sim/light/emission_text.h"
#include "sim/light/emitter.h"
#include "sim/light/emitter_face.h"
#include "sim/light/output.h"

#include "support/helpers/emitters.h"

#include <catch2/catch.hpp>

using namespace keystead;
using emitters::face;

namespace {

const ModifierShape all_shapes[] = {ModifierShape::bare,    ModifierShape::disc,
                                    ModifierShape::ring,    ModifierShape::rectangle,
                                    ModifierShape::octagon, ModifierShape::umbrella};

Emitter sample_face(ModifierShape shape) {
    Emitter emitter = face(shape, 0.9, 0.9, 100.0);
    emitter.inner_width_m = shape == ModifierShape::ring ? 0.5 : 0.0;
    emitter.depth_m = shape == ModifierShape::umbrella ? 0.2 : 0.0;
    emitter.hot_spot = 0.2;
    emitter.area_m2 = face_area_m2(emitter);
    return emitter;
}

/// Mean over the face of a function of the point, by a fine grid of unit-square samples.
template <class Function>
auto face_mean(const Emitter& emitter, Function function) {
    constexpr int side = 200;
    auto sum = function(emitter_point(emitter, 0.5 / side, 0.5 / side)) * 0.0;
    for (int i = 0; i < side; ++i)
        for (int j = 0; j < side; ++j)
            sum += function(emitter_point(emitter, (i + 0.5) / side, (j + 0.5) / side));
    return sum / double(side * side);
}

} // namespace

TEST_CASE("The points of a face add up to its area and are the same every time", "[emitter]") {
    for (const ModifierShape shape : all_shapes) {
        const Emitter emitter = sample_face(shape);
        const auto points = emitter_points(emitter, 256);
        const auto again = emitter_points(emitter, 256);
        double area = 0.0;
        for (std::size_t i = 0; i < points.size(); ++i) {
            area += points[i].area_m2;
            CHECK(points[i].position_m == again[i].position_m);
        }
        CHECK(area == Approx(emitter.area_m2).epsilon(1e-12));
        CHECK(points.size() >= 180);
        CHECK(points.size() <= 400);
    }
}

TEST_CASE("Face areas are the textbook's", "[emitter]") {
    CHECK(sample_face(ModifierShape::disc).area_m2 == Approx(pi * 0.45 * 0.45));
    CHECK(sample_face(ModifierShape::ring).area_m2 == Approx(pi * (0.45 * 0.45 - 0.25 * 0.25)));
    CHECK(sample_face(ModifierShape::rectangle).area_m2 == Approx(0.81));
    // Regular octagon of side a across flats a(1+sqrt 2): area 2(1+sqrt 2)a².
    const double side = 0.9 / (1.0 + std::sqrt(2.0));
    CHECK(sample_face(ModifierShape::octagon).area_m2 ==
          Approx(2.0 * (1.0 + std::sqrt(2.0)) * side * side));
    // Spherical cap: pi (a² + s²).
    CHECK(sample_face(ModifierShape::umbrella).area_m2 == Approx(pi * (0.45 * 0.45 + 0.04)));
    CHECK(sample_face(ModifierShape::bare).area_m2 == Approx(4.0 * pi * 0.45 * 0.45));
}

TEST_CASE("Unit-square samples are uniform by area: moments of the face match", "[emitter]") {
    const auto second_moment = [](const Emitter& emitter) {
        return face_mean(emitter, [](const EmitterPoint& p) {
            return p.position_m.x * p.position_m.x + p.position_m.y * p.position_m.y;
        });
    };
    // Polar second moments over area: disc r²/2, ring (r²+q²)/2, square a²/6.
    CHECK(second_moment(sample_face(ModifierShape::disc)) == Approx(0.45 * 0.45 / 2).epsilon(1e-4));
    CHECK(second_moment(sample_face(ModifierShape::ring)) ==
          Approx((0.45 * 0.45 + 0.25 * 0.25) / 2).epsilon(1e-4));
    CHECK(second_moment(sample_face(ModifierShape::rectangle)) == Approx(0.81 / 6).epsilon(1e-4));
    const double tan8 = std::tan(pi / 8);
    CHECK(second_moment(sample_face(ModifierShape::octagon)) ==
          Approx(0.45 * 0.45 / 2 * (1 + tan8 * tan8 / 3)).epsilon(1e-4));
    // Cap, by Archimedes: mean of z(2R - z) over z in 0..s = R s - s²/3.
    const double radius = cap_radius_m(0.45, 0.2);
    CHECK(second_moment(sample_face(ModifierShape::umbrella)) ==
          Approx(radius * 0.2 - 0.04 / 3).epsilon(1e-4));
    CHECK(second_moment(sample_face(ModifierShape::bare)) ==
          Approx(2.0 / 3.0 * 0.45 * 0.45).epsilon(1e-4));
}

TEST_CASE("Any straight edge across a face cuts off nearly its share of the points", "[emitter]") {
    // What a shadow's edge needs: worst error of a half-plane's share at the reading's 256 points.
    for (const ModifierShape shape : {ModifierShape::disc, ModifierShape::rectangle}) {
        const auto points = emitter_points(sample_face(shape), 256);
        const auto dense = emitter_points(sample_face(shape), 20000);
        const auto share = [](const auto& set, const Vec2& normal, double offset) {
            double inside = 0;
            for (const EmitterPoint& p : set)
                inside += normal.x * p.position_m.x + normal.y * p.position_m.y < offset ? 1 : 0;
            return inside / static_cast<double>(set.size());
        };
        double worst = 0.0;
        for (double angle = 0.0; angle < pi; angle += 0.1)
            for (double offset = -0.4; offset <= 0.4; offset += 0.05) {
                const Vec2 normal(std::cos(angle), std::sin(angle));
                worst = std::max(
                    worst, std::abs(share(points, normal, offset) - share(dense, normal, offset)));
            }
        // Random points err by about 0.07; the lattice has its own few directions of 0.03.
        CHECK(worst < 0.03);
    }
}

TEST_CASE("A hot-spot brightens the middle and leaves the mean exitance alone", "[emitter]") {
    for (const ModifierShape shape : all_shapes) {
        const Emitter emitter = sample_face(shape);
        CHECK(face_mean(emitter, [](const EmitterPoint& p) { return p.relative_exitance; }) ==
              Approx(1.0).epsilon(2e-4));
    }
    CHECK(emitter_point(sample_face(ModifierShape::disc), 0.5, 0.5).relative_exitance ==
          Approx(1.2));
    CHECK(emitter_point(sample_face(ModifierShape::disc), 1.0, 0.5).relative_exitance ==
          Approx(0.8));
}

TEST_CASE("An umbrella's inside faces the subject and its rim hides the near part from the side",
          "[emitter]") {
    const Emitter emitter = sample_face(ModifierShape::umbrella);
    const EmitterPoint apex = emitter_point(emitter, 0.5, 0.5);
    CHECK(apex.position_m.z == Approx(emitter.centre_m.z - 0.2));
    CHECK(apex.normal.z == Approx(1.0));
    const EmitterPoint right = emitter_point(emitter, 1.0, 0.5);
    CHECK(right.position_m.x == Approx(0.45));
    CHECK(right.position_m.z == Approx(emitter.centre_m.z).margin(1e-12));
    CHECK(right.normal.x < -0.5);
    // Straight ahead everything shines; almost along the rim plane the apex is hidden.
    CHECK(radiance(emitter, apex, Vec3(0, 0, 1)) > 0.0);
    CHECK(radiance(emitter, apex, glm::normalize(Vec3(1, 0, 0.1))) == 0.0);
    CHECK(radiance(emitter, right, glm::normalize(Vec3(-1, 0, 0.1))) > 0.0);
}

TEST_CASE("Stored energy, efficacy and losses make the face's exitance", "[emitter]") {
    Light light;
    light.modifier.shape = ModifierShape::disc;
    light.modifier.width_m = light.modifier.height_m = 0.9;
    light.modifier.transmission = 0.35;
    light.head.energy_ws = 500;
    light.head.efficacy_lm_per_w = 40;
    light.head.power_stops_below = 3;
    SupportPose pose;
    const Emitter emitter = make_emitter(light, pose, {});
    CHECK(emitter.exitance * emitter.area_m2 == Approx(7000.0));
    CHECK(emitter.power == Approx(0.125));
    light.on = false;
    CHECK(make_emitter(light, pose, {}).power == 0.0);
    light.modifier.gel = Gel{159.0, 0.5, {}, {}};
    const Emitter gelled = make_emitter(light, pose, {});
    CHECK(gelled.exitance * gelled.area_m2 == Approx(3500.0));
    CHECK(gelled.colour.r > 1.3);
    CHECK(gelled.colour.b < 0.5);
    light.head.kind = HeadKind::continuous;
    light.head.lumens = 8000;
    const Emitter lamp = make_emitter(light, pose, {});
    CHECK_FALSE(lamp.flash);
    CHECK(lamp.exitance * lamp.area_m2 == Approx(8000 * 0.35 * 0.5));
}

TEST_CASE("A calibration reading is what the model then predicts, grid and all", "[emitter]") {
    Light light;
    light.modifier.shape = ModifierShape::rectangle;
    light.modifier.width_m = 0.3;
    light.modifier.height_m = 1.2;
    light.modifier.grid.emplace();
    light.modifier.grid->cell = GridCell::square;
    light.modifier.grid->cell_width_m = light.modifier.grid->cell_depth_m = 0.05;
    light.head.power_stops_below = 2;
    light.head.calibration.emplace();
    light.head.calibration->f_number = 8.0;
    light.head.calibration->distance_m = 1.5;
    light.head.calibration->stops_below_full = 1.0;
    SupportPose pose;
    MeterSettings meter;
    const Emitter emitter = make_emitter(light, pose, meter);
    // f/8 at ISO 100 and C = 250 is 160 lx·s (ISO 2720), read one stop below full.
    CHECK(axial_exposure(emitter, 1.5) == Approx(320.0).epsilon(1e-9));
    light.head.kind = HeadKind::continuous;
    light.head.calibration->shutter_s = 1.0 / 125;
    CHECK(axial_exposure(make_emitter(light, pose, meter), 1.5) == Approx(320.0 * 125));
}

TEST_CASE("The emission text gives the same in float and in double", "[emitter]") {
    for (int i = 0; i <= 40; ++i) {
        const double x = i / 32.0;
        CHECK(emission_float::round_cell_transmittance(float(x)) ==
              Approx(emission::round_cell_transmittance(x)).margin(1e-6));
        CHECK(emission_float::square_cell_transmittance(float(x), float(0.3 * x)) ==
              Approx(emission::square_cell_transmittance(x, 0.3 * x)).margin(1e-6));
        for (int cell = 0; cell <= 2; ++cell)
            CHECK(emission_float::grid_transmittance(cell, 1.7f, 0.9f, 0.02f,
                                                     {float(x) - 0.5f, 0.2f, 1.0f}) ==
                  Approx(emission::grid_transmittance(cell, 1.7, 0.9, 0.02, {x - 0.5, 0.2, 1.0}))
                      .margin(1e-6));
        for (int shape = 0; shape <= 5; ++shape)
            CHECK(
                emission_float::hot_spot_factor(shape, 0.2f, {float(x) * 0.7f, 0.3f}, 0.4f, 0.5f) ==
                Approx(emission::hot_spot_factor(shape, 0.2, {x * 0.7, 0.3}, 0.4, 0.5))
                    .margin(1e-6));
    }
}

TEST_CASE("Nothing leaves behind a face, and a bare lamp shines all round", "[emitter]") {
    CHECK(grid_transmittance(sample_face(ModifierShape::disc), Vec3(0, 0, -1)) == 0.0);
    CHECK(grid_transmittance(sample_face(ModifierShape::bare), Vec3(0, 0, -1)) == 1.0);
}
