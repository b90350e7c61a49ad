#include "sim/light/grid.h"

#include "sim/light/configuration_factor.h"
#include "sim/light/emission_text.h"
#include "sim/light/stops.h"
#include "support/helpers/checks.h"

using namespace keystead;

namespace {

double round_cell(double u) {
    return emission::round_cell_transmittance(u);
}

/// Square cell, u at an azimuth from a side.
double square_cell(double u, double azimuth_deg) {
    const double azimuth = radians(azimuth_deg);
    return emission::square_cell_transmittance(u * std::cos(azimuth), u * std::sin(azimuth));
}

} // namespace

TEST_CASE("Round and square cells pass what overlapping openings pass", "[grid]") {
    CHECK_ROW(112, round_cell(0.1));
    CHECK_ROW(113, round_cell(0.25));
    CHECK_ROW(114, round_cell(0.404));
    CHECK_ROW(115, round_cell(0.5));
    CHECK_ROW(116, round_cell(0.75));
    CHECK_ROW(117, round_cell(0.9));
    CHECK_ROW(121, square_cell(0.5, 0));
    CHECK_ROW(122, square_cell(0.5, 45));
    CHECK(round_cell(0.0) == Approx(1.0));
    CHECK(round_cell(1.0) == 0.0);
    CHECK(square_cell(1.5, 45) == 0.0);
}

TEST_CASE("Half transmittance and cut-off, and what a grid's degrees may mean", "[grid]") {
    CHECK_ROW(118, half_transmittance_u_round());
    CHECK_ROW(119, half_transmittance_u_square_side);
    CHECK_ROW(120, half_transmittance_u_square_diagonal());
    CHECK(square_cell(half_transmittance_u_square_side, 0) == Approx(0.5));
    CHECK(square_cell(half_transmittance_u_square_diagonal(), 45) == Approx(0.5));
    CHECK_ROW(123, cutoff_half_angle_deg(0.5));
    Grid fabric;
    fabric.cell_width_m = fabric.cell_depth_m = 0.05;
    CHECK_ROW(124, 2 * cutoff_half_angle_deg(cell_ratio(fabric)));
    CHECK_ROW(125, cell_ratio_from_full_cutoff(40));
    CHECK_ROW(126, cell_ratio_from_half_intensity_width(40));
}

TEST_CASE("A grid passes the flux between two coaxial discs", "[grid]") {
    CHECK_ROW(127, flux_through_round_cells(0.25));
    CHECK_ROW(128, flux_through_round_cells(0.5));
    CHECK_ROW(129, flux_through_round_cells(1.0));
    CHECK_ROW(160, flux_through_round_cells(1.0));
    // The same by integrating the transmittance over the hemisphere: a disc wide enough that the
    // cut-off lies inside its rim.
    for (const double ratio : {0.25, 0.5, 1.0})
        CHECK(gridded_disc_on_axis(10 * ratio, 1.0, ratio) ==
              Approx(flux_through_round_cells(ratio)).epsilon(1e-10));
}

TEST_CASE("Near a big box a grid costs light on the axis too", "[grid]") {
    CHECK_ROW(130, gridded_disc_on_axis(0.6, 1.5, 1.0));
    CHECK_ROW(131, stops_between(gridded_disc_on_axis(0.6, 1.5, 1.0), disc_on_axis(0.6, 1.5)));
}

TEST_CASE("A grid's footprint on the background follows its angle", "[grid]") {
    // Core and outer edge, full angles; tolerance a centimetre.
    const GridFootprint twenty = grid_footprint(20, 2.0, 0.18);
    CHECK(twenty.core_m == Approx(0.71).margin(0.01));
    CHECK(twenty.outer_m == Approx(0.89).margin(0.01));
    const GridFootprint ten = grid_footprint(10, 1.5, 0.18);
    CHECK(ten.core_m == Approx(0.26).margin(0.01));
    CHECK(ten.outer_m == Approx(0.44).margin(0.01));
    const GridFootprint forty = grid_footprint(40, 1.5, 0.18);
    CHECK(forty.core_m == Approx(1.09).margin(0.01));
    CHECK(forty.outer_m == Approx(1.27).margin(0.01));
}
