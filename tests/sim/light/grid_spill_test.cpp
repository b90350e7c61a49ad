// A grid on a dish, in numbers: what it takes from the background and the body, and from the face.
#include "sim/base/frames.h"
#include "sim/light/meter.h"
#include "sim/light/stops.h"
#include "support/helpers/emitters.h"

#include <catch2/catch.hpp>

using namespace keystead;

namespace {

const Vec3 face_m(0.0, 1.55, 0.10);

/// A 0.18 m dish 1.3 m from the face, 40 degrees to the side and 35 up, aimed at it.
Emitter dish(bool gridded) {
    Emitter emitter = emitters::face(ModifierShape::disc, 0.18, 0.18, 30000.0);
    const Vec3 toward = direction_from({40, 35});
    emitter.centre_m = face_m + 1.3 * toward;
    emitter.axes = upright_frame(-toward);
    if (gridded) {
        emitter.grid.emplace();
        emitter.grid->cell_width_m = 0.006;
        emitter.grid->cell_depth_m = 0.0165; // full cut-off 40 degrees
        emitter.grid->open_fraction = 0.92;
        emitter.grid->wall_reflection = 0.0;
    }
    return emitter;
}

/// Stops that the grid takes at a place, receptor turned to the light.
double grid_loss_stops(const Vec3& place_m) {
    const Emitter open = dish(false), gridded = dish(true);
    Probe probe;
    probe.position_m = place_m;
    probe.facing = glm::normalize(open.centre_m - place_m);
    return stops_between(exposure_at(gridded, probe, nullptr), exposure_at(open, probe, nullptr));
}

} // namespace

TEST_CASE("A grid on a dish darkens background and body and keeps the face", "[grid]") {
    // On the axis only the open fraction and the dish's own width are lost: 0.2 to 1 stop is what
    // the trade states for grids (common practice).
    const double face_stops = grid_loss_stops(face_m);
    CHECK(face_stops >= stops_between(0.92, 1.0));
    CHECK(face_stops == Approx(0.37).margin(0.05));
    // Below the face the loss is the cell's own at that angle, within what the dish's width blurs.
    for (const double height_m : {1.30, 1.20, 1.10, 1.00}) {
        const Vec3 place_m(0, height_m, 0.10);
        const Vec3 from_dish = glm::normalize(place_m - dish(true).centre_m);
        const double expected = -std::log2(grid_transmittance(dish(true), from_dish));
        CHECK(grid_loss_stops(place_m) == Approx(expected).margin(0.15));
    }
    // Relative to the face: breastbone a third of a stop, waist over one, hip over two.
    CHECK(grid_loss_stops({0, 1.35, 0.1}) - face_stops > 0.3);
    CHECK(grid_loss_stops({0, 1.15, 0.1}) - face_stops > 1.0);
    CHECK(grid_loss_stops({0, 1.00, 0.1}) - face_stops > 2.0);
    // The paper 1.8 m behind, beside the head's own shadow: most of the frame is past the cut-off.
    const Emitter gridded = dish(true);
    Probe paper;
    paper.position_m = Vec3(0.3, 1.6, -1.8);
    paper.facing = Vec3(0, 0, 1);
    CHECK(exposure_at(dish(false), paper, nullptr) > 0.0);
    CHECK(exposure_at(gridded, paper, nullptr) == 0.0);
}

TEST_CASE("Off the axis a small gridded dish loses what one cell's overlap loses", "[grid]") {
    // Far enough that the dish is a point: the loss is the closed form at that angle.
    Emitter open = emitters::face(ModifierShape::disc, 0.004, 0.004, 1.0);
    Emitter gridded = open;
    gridded.grid.emplace();
    gridded.grid->cell_width_m = 0.01;
    gridded.grid->cell_depth_m = 0.02;
    gridded.grid->open_fraction = 0.9;
    gridded.grid->wall_reflection = 0.0;
    for (const double u : {0.0, 0.25, 0.5, 0.75}) {
        Probe probe;
        probe.position_m = Vec3(4 * u * 0.5, 0, 4);
        probe.facing = glm::normalize(-probe.position_m);
        const double expected[] = {1.0, 0.68503764, 0.39100222, 0.14429361};
        CHECK(exposure_at(gridded, probe, nullptr) / exposure_at(open, probe, nullptr) ==
              Approx(0.9 * expected[static_cast<int>(4 * u)]).epsilon(2e-3));
    }
}
