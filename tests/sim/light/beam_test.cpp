// Gathering faces, cut-offs, rims, flaps and deflectors: the flux that leaves, and where it goes.
#include "sim/light/configuration_factor.h"
#include "sim/light/emission_text.h"
#include "sim/light/grid.h"
#include "sim/light/meter.h"
#include "sim/light/output.h"
#include "support/helpers/checks.h"
#include "support/helpers/emitters.h"

using namespace keystead;

namespace {

/// Intensity toward a direction of the face's frame, from so far away that the face is a point.
double intensity(const Emitter& emitter, const std::vector<EmitterPoint>& points,
                 const Vec3& direction) {
    double sum = 0.0;
    for (const EmitterPoint& point : points)
        sum += radiance(emitter, point, direction) *
               std::max(0.0, glm::dot(point.normal, direction)) * point.area_m2;
    return sum;
}

/// Flux by midpoints over the whole sphere.
double flux(const Emitter& emitter, int points = 377) {
    constexpr int rows = 360, columns = 48;
    const auto face = emitter_points(emitter, points);
    double sum = 0.0;
    for (int i = 0; i < rows; ++i)
        for (int j = 0; j < columns; ++j) {
            const double angle = pi * (i + 0.5) / rows, turn = 2.0 * pi * (j + 0.5) / columns;
            const Vec3 direction(std::sin(angle) * std::cos(turn), std::sin(angle) * std::sin(turn),
                                 std::cos(angle));
            sum += intensity(emitter, face, direction) * std::sin(angle);
        }
    return sum * (pi / rows) * (2.0 * pi / columns);
}

/// A face with this profile that sends out 1000 lm·s.
Emitter profiled(ModifierShape shape, double exponent, double cutoff_deg = 90.0,
                 double edge_deg = 2.0) {
    Emitter emitter = emitters::face(shape, 0.5, 0.5, 1.0);
    emitter.exitance = 1000.0 / emitter.area_m2;
    emitter.beam = {exponent, cutoff_deg, edge_deg, 1.0};
    emitter.beam.gain = emitter_gain(emitter);
    return emitter;
}

Vec3 off_axis(double angle_deg, double turn_deg = 0.0) {
    const double a = radians(angle_deg), t = radians(turn_deg);
    return {std::sin(a) * std::cos(t), std::sin(a) * std::sin(t), std::cos(a)};
}

double toward(const Emitter& emitter, double angle_deg, double turn_deg = 0.0) {
    return intensity(emitter, emitter_points(emitter, 2584), off_axis(angle_deg, turn_deg));
}

/// A light with everything but this modifier as it comes, aimed along +Z.
Emitter fitted(const Modifier& modifier, const std::optional<CalibrationReading>& reading = {}) {
    Light light;
    light.modifier = modifier;
    light.head.calibration = reading;
    AimTarget target;
    target.is_direction = true;
    target.direction = Vec3(0, 0, 1);
    return make_emitter(light, pose_support(light, target), {});
}

} // namespace

TEST_CASE("What leaves a face is its output, however it gathers or is cut off", "[beam]") {
    for (const double exponent : {0.5, 1.0, 3.0, 12.0, 60.0}) {
        CHECK(flux(profiled(ModifierShape::disc, exponent), 1) == Approx(1000.0).epsilon(2e-3));
        CHECK(flux(profiled(ModifierShape::rectangle, exponent, 30.0, 6.0), 1) ==
              Approx(1000.0).epsilon(2e-3));
        CHECK(flux(profiled(ModifierShape::bare, exponent, 40.0, 10.0)) ==
              Approx(1000.0).epsilon(5e-3));
    }
    CHECK(flux(profiled(ModifierShape::bare, 1.0)) == Approx(1000.0).epsilon(2e-3));
    // By hand: ∫ cosⁿ dω = 2 pi/(n+1), so that L(0) = (n+1)/2 · M/pi.
    CHECK(flat_gain({7.0, 90.0, 2.0, 1.0}) == Approx(4.0));
    // A hard cut-off at θ of a Lambertian face leaves sin²θ of it (the disc's factor).
    CHECK(flat_gain({1.0, 30.0, 0.05, 1.0}) == Approx(4.0).epsilon(5e-3));
}

TEST_CASE("Canopies send out what they are given, hollow or bulging", "[beam]") {
    for (const bool bulges : {false, true})
        for (const double depth_m : {0.05, 0.12, 0.2}) {
            Emitter canopy = emitters::face(ModifierShape::umbrella, 0.5, 0.5, 1.0);
            canopy.depth_m = depth_m;
            canopy.bulges = bulges;
            canopy.area_m2 = face_area_m2(canopy);
            canopy.exitance = 1000.0 / canopy.area_m2;
            canopy.beam.gain = emitter_gain(canopy);
            CHECK(flux(canopy) == Approx(1000.0).epsilon(5e-3));
        }
}

TEST_CASE("Radiance off the axis goes with the cosine's power", "[beam]") {
    for (const double exponent : {1.0, 2.0, 8.0}) {
        const Emitter face = profiled(ModifierShape::disc, exponent);
        // Intensity I(θ) = Φ (n+1)/(2 pi) cosⁿθ.
        for (const double angle_deg : {0.0, 20.0, 45.0, 70.0})
            CHECK(toward(face, angle_deg) ==
                  Approx(1000.0 * (exponent + 1.0) / (2.0 * pi) *
                         std::pow(std::cos(radians(angle_deg)), exponent)));
        CHECK(toward(face, 95.0) == 0.0);
    }
}

TEST_CASE("A cut-off is full before its edge and dark behind it", "[beam]") {
    const Emitter spot = profiled(ModifierShape::disc, 1.0, 20.0, 4.0);
    const double middle = toward(spot, 0.0);
    CHECK(toward(spot, 15.9) / middle == Approx(std::cos(radians(15.9))));
    CHECK(toward(spot, 18.0) / middle == Approx(0.5 * std::cos(radians(18.0))));
    CHECK(toward(spot, 20.01) == 0.0);
    CHECK(toward(profiled(ModifierShape::bare, 1.0, 20.0, 4.0), 25.0) == 0.0);
}

TEST_CASE("A grid's printed angle is read as it says", "[beam][grid]") {
    Modifier modifier;
    modifier.shape = ModifierShape::disc;
    modifier.width_m = modifier.height_m = 0.18;
    modifier.grid.emplace();
    modifier.grid->wall_reflection = 0.0;
    modifier.grid->nominal_deg = 40.0;
    modifier.grid->reading = GridReading::full_cutoff;
    CHECK_ROW(125, cell_ratio(*modifier.grid));
    const Emitter full = fitted(modifier);
    CHECK(grid_transmittance(full, full.axes * off_axis(19.9)) > 0.0);
    CHECK(grid_transmittance(full, full.axes * off_axis(20.1)) == 0.0);
    modifier.grid->reading = GridReading::half_intensity;
    CHECK_ROW(126, cell_ratio(*modifier.grid));
    for (const GridCell cell : {GridCell::round, GridCell::square}) {
        modifier.grid->cell = cell;
        const Emitter half = fitted(modifier);
        CHECK(grid_transmittance(half, half.axes * off_axis(20.0)) /
                  grid_transmittance(half, half.axes[2]) ==
              Approx(0.5).epsilon(1e-6));
    }
}

TEST_CASE("A grid over a matt face passes the closed form's flux, and its walls their share",
          "[beam][grid]") {
    Emitter gridded = profiled(ModifierShape::disc, 1.0);
    gridded.grid.emplace();
    gridded.grid->cell_width_m = 0.01;
    gridded.grid->cell_depth_m = 0.02;
    gridded.grid->open_fraction = 1.0;
    gridded.grid->wall_reflection = 0.0;
    const double black = flux(gridded, 1) / 1000.0;
    CHECK(black == Approx(0.05572809).epsilon(5e-3)); // checks.csv row 128
    gridded.grid->wall_reflection = 0.03;
    CHECK(flux(gridded, 1) / 1000.0 == Approx(black + 0.03 * (1.0 - black)).epsilon(5e-3));
    CHECK(toward(gridded, 60.0) ==
          Approx(0.03 * 1000.0 / pi * std::cos(radians(60.0))).epsilon(1e-9));
}

TEST_CASE("A recessed face shows through its rim what two outlines share", "[beam]") {
    // A disc behind a round rim: the overlap of two circles (the round cell's formula); a box's
    // rim: 1 - u along its side. The rim lies 0.4 % outside the face.
    Emitter disc = profiled(ModifierShape::disc, 1.0);
    disc.front.half_width_m = disc.front.half_height_m = 0.25;
    disc.front.lip_m = 0.10;
    Emitter box = profiled(ModifierShape::rectangle, 1.0);
    box.front = disc.front;
    for (const double u : {0.1, 0.25, 0.5, 0.75}) {
        const double angle_deg = degrees(std::atan(u * 0.5 / 0.10));
        const double open = 1000.0 / pi * std::cos(radians(angle_deg));
        CHECK(toward(disc, angle_deg) / open ==
              Approx(emission::round_cell_transmittance(u)).margin(0.01));
        CHECK(toward(box, angle_deg) / open == Approx(1.0 - u).margin(0.01));
    }
    CHECK(toward(disc, 0.0) == Approx(1000.0 / pi));
}

TEST_CASE("A flap cuts the beam where the line over its edge says", "[beam]") {
    // Seen from the middle of a small face 9 cm below the hinge, a 15 cm flap 30 degrees open hides
    // all above the slope (0.09 + 0.15 sin 30)/(0.15 cos 30).
    Emitter lamp = emitters::face(ModifierShape::disc, 0.002, 0.002, 1.0);
    lamp.front.half_width_m = lamp.front.half_height_m = 0.09;
    const double edge_deg = degrees(std::atan((0.09 + 0.075) / (0.15 * std::cos(radians(30.0)))));
    const auto share = [&](double angle_deg, double turn_deg) {
        Emitter open = lamp;
        open.front = {};
        return toward(lamp, angle_deg, turn_deg) / toward(open, angle_deg, turn_deg);
    };
    struct Flap {
        double BarnDoors::*angle;
        double turn_deg;
    };
    for (const Flap& flap : {Flap{&BarnDoors::top_deg, 90.0}, Flap{&BarnDoors::bottom_deg, 270.0},
                             Flap{&BarnDoors::left_deg, 180.0}, Flap{&BarnDoors::right_deg, 0.0}}) {
        BarnDoors doors;
        doors.*flap.angle = 30.0;
        set_doors(lamp.front, doors);
        CHECK(share(edge_deg - 1.5, flap.turn_deg) == Approx(1.0));
        CHECK(share(edge_deg + 1.5, flap.turn_deg) == 0.0);
        CHECK(share(edge_deg + 1.5, flap.turn_deg + 180.0) == Approx(1.0));
        // Leaning in over the beam it cuts across the middle: its edge is at the slope
        // (0.09 - 0.15 sin 50)/(0.15 cos 50), below the axis.
        doors.*flap.angle = -50.0;
        set_doors(lamp.front, doors);
        const double over_deg = degrees(
            std::atan((0.15 * std::sin(radians(50.0)) - 0.09) / (0.15 * std::cos(radians(50.0)))));
        CHECK(share(0.0, 0.0) == 0.0);
        CHECK(share(over_deg - 1.5, flap.turn_deg + 180.0) == 0.0);
        CHECK(share(over_deg + 1.5, flap.turn_deg + 180.0) == Approx(1.0));
    }
    BarnDoors open;
    set_doors(lamp.front, open);
    for (double turn = 0.0; turn < 360.0; turn += 30.0) CHECK(share(85.0, turn) == Approx(1.0));
}

TEST_CASE("A deflector leaves a ring that is brightest around it and loses nothing", "[beam]") {
    Modifier dish;
    dish.shape = ModifierShape::disc;
    dish.width_m = dish.height_m = 0.55;
    dish.depth_m = 0.2;
    dish.hot_spot = 0.0;
    dish.transmission = 0.5;
    dish.diffusion_layers = 0;
    for (const double width_m : {0.08, 0.16, 0.30}) {
        dish.deflector_width_m = width_m;
        const Emitter emitter = fitted(dish);
        const auto points = emitter_points(emitter, 2584);
        double mean = 0.0, nearest = 1.0, at_nearest = 0.0;
        for (const EmitterPoint& point : points) {
            mean += point.relative_exitance / double(points.size());
            const double r = glm::length(point.position_m - emitter.centre_m) / 0.275;
            CHECK(r >= width_m / 0.55 - 1e-9);
            if (r < nearest) nearest = r, at_nearest = point.relative_exitance;
        }
        CHECK(mean == Approx(1.0).epsilon(2e-3));
        CHECK(at_nearest > 1.2);
        CHECK(emitter.exitance * emitter.area_m2 == Approx(400 * 38 * 0.5));
    }
    // Under a sock the whole mouth glows.
    dish.diffusion_layers = 1;
    CHECK(fitted(dish).shape == ModifierShape::disc);
}

TEST_CASE("A second layer of cloth halves the hot spot and changes no output", "[beam]") {
    Modifier box;
    box.hot_spot = 0.3;
    const Emitter one = fitted(box);
    box.diffusion_layers = 2;
    const Emitter two = fitted(box);
    CHECK(one.hot_spot == Approx(0.3));
    CHECK(two.hot_spot == Approx(0.15));
    CHECK(one.exitance == Approx(two.exitance));
}

TEST_CASE("An umbrella's reading counts its own lamp's shade once", "[beam]") {
    Modifier umbrella;
    umbrella.shape = ModifierShape::umbrella;
    umbrella.width_m = umbrella.height_m = 1.0;
    umbrella.depth_m = 0.21;
    umbrella.hot_spot = 0.0;
    CalibrationReading reading;
    reading.f_number = 8.0;
    reading.distance_m = 2.5;
    const Emitter calibrated = fitted(umbrella, reading);
    // The reading was taken past the lamp: 160 lx·s (ISO 2720, C = 250) with it in the way.
    CHECK(calibrated.front.lamp_radius_m > 0.0);
    CHECK(axial_exposure(calibrated, 2.5) == Approx(160.0).epsilon(1e-6));
    Emitter no_lamp = calibrated;
    no_lamp.front = {};
    CHECK(axial_exposure(no_lamp, 2.5) > 160.0);
    CHECK(axial_exposure(no_lamp, 2.5) < 160.0 * 1.08);
    umbrella.umbrella = UmbrellaKind::shoot_through;
    const Emitter through = fitted(umbrella, reading);
    CHECK(through.front.lamp_radius_m == 0.0);
    CHECK(axial_exposure(through, 2.5) == Approx(160.0).epsilon(1e-6));
    // The cap stands toward the subject and the lamp behind it.
    const EmitterPoint apex = emitter_point(through, 0.5, 0.5);
    CHECK(glm::dot(apex.position_m - through.centre_m, through.axes[2]) == Approx(0.21));
    CHECK(glm::dot(apex.normal, through.axes[2]) == Approx(1.0));
}

TEST_CASE("The beam text gives the same in float and in double", "[beam]") {
    namespace f = emission_float;
    namespace d = emission;
    const d::FaceFront door{{0.1, 0.12}, 0.02, 0.15, {0.5, 0.2, 1, 1}, {0.8, 0.9, 0, 0}, 0.3, 0.05};
    const f::FaceFront narrow{{0.1f, 0.12f},      0.02f, 0.15f, {0.5f, 0.2f, 1, 1},
                              {0.8f, 0.9f, 0, 0}, 0.3f,  0.05f};
    int differing = 0;
    for (int i = 0; i < 400; ++i) {
        const double x = std::fmod(i * 0.6180339887, 1.0) - 0.5;
        const double y = std::fmod(i * 0.7548776662, 1.0) - 0.5;
        const glm::dvec3 direction(2.0 * x, 1.5 * y, 1.0);
        CHECK(f::beam_profile(4.0f, 0.6f, 0.2f, glm::vec3(direction)) ==
              Approx(d::beam_profile(4.0, 0.6, 0.2, direction)).margin(1e-5));
        CHECK(f::deflected(float(x + 0.5), 0.3f) ==
              Approx(d::deflected(x + 0.5, 0.3)).margin(1e-5));
        const glm::dvec3 place(0.1 * y, -0.1 * x, 0.0);
        if (f::clears_front(narrow, 1, glm::vec3(place), glm::vec3(direction)) !=
            d::clears_front(door, 1, place, direction))
            ++differing; // only right on an edge
    }
    CHECK(differing <= 2);
}
