#include "sim/light/power.h"

#include "sim/light/output.h"
#include "support/helpers/emitters.h"

#include <catch2/catch.hpp>

using namespace keystead;

TEST_CASE("A quarter power at f/8 to f/2.8 is three stops: a thirty-second", "[power]") {
    // Power arithmetic, closed form: 1/4 · 2^-3 = 1/32.
    Head head;
    head.power_stops_below = 2.0;
    head.range_stops = 7.0;
    const PowerSetting down = power_after(head, -3.0);
    CHECK(down.reached());
    CHECK(power_factor(down.stops_below) == Approx(1.0 / 32.0));
}

TEST_CASE("Beyond full and below the lowest setting the rest is said", "[power]") {
    Head head;
    head.power_stops_below = 2.0;
    head.range_stops = 5.0;
    const PowerSetting up = power_after(head, 3.2);
    CHECK(up.stops_below == 0.0);
    CHECK(up.missing_stops == Approx(1.2));
    CHECK(up.excess_stops == 0.0);
    const PowerSetting down = power_after(head, -4.0);
    CHECK(down.stops_below == 5.0);
    CHECK(down.excess_stops == Approx(1.0));
    CHECK_FALSE(down.reached());
    CHECK(power_after(head, 2.04).reached());
    CHECK_FALSE(power_after(head, 2.06).reached());
}

TEST_CASE("A small lamp gains a stop at 71 % of its distance, a large face only nearer still",
          "[power]") {
    // Point: d/sqrt 2. Disc on the axis, F = r²/(r² + d²): F doubles at d² = (d0² - r²)/2.
    const Emitter lamp = emitters::face(ModifierShape::disc, 0.02, 0.02, 1.0);
    CHECK(*distance_for_stops(lamp, 2.0, 1.0) == Approx(2.0 / std::sqrt(2.0)).epsilon(1e-3));
    CHECK(*distance_for_stops(lamp, 2.0, -1.0) == Approx(2.0 * std::sqrt(2.0)).epsilon(1e-3));
    const Emitter disc = emitters::face(ModifierShape::disc, 1.0, 1.0, 1.0);
    CHECK(*distance_for_stops(disc, 1.0, 1.0) ==
          Approx(std::sqrt((1.0 - 0.25) / 2.0)).epsilon(2e-3));
    // Twice F at this distance is more than a face that fills half the room can give.
    CHECK_FALSE(distance_for_stops(disc, 0.3, 1.0));
}

TEST_CASE("A grid before a disc costs on the axis what its closed form says", "[power]") {
    // Row 131: radius 0.6 m at 1.5 m, round cells as wide as deep, black walls.
    Emitter disc = emitters::face(ModifierShape::disc, 1.2, 1.2, 1.0);
    CHECK(grid_loss_stops(disc, 1.5) == 0.0);
    disc.grid = Grid{};
    disc.grid->cell_width_m = disc.grid->cell_depth_m = 0.05;
    disc.grid->open_fraction = 1.0;
    disc.grid->wall_reflection = 0.0;
    CHECK(grid_loss_stops(disc, 1.5) == Approx(0.565269).margin(2e-3));
}
