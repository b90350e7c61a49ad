// Honeycomb and egg-crate grids in closed form: cut-off, half intensity, flux, footprint.
//
// A black thin-walled cell of width w and depth t; "cell ratio" is w/t. A grid's printed degrees
// are not standardised: some mean the full cut-off angle, some the full width at half intensity.
// Hence sets store w and t, and a nominal angle needs its stated reading.
#pragma once

#include "sim/set/set.h"

namespace keystead {

/// Width over depth of a grid's cells, from the cells or from the printed angle's stated reading.
double cell_ratio(const Grid& grid);

/// The grid with the cell depth that its ratio asks for: what a printed angle means in cells.
Grid resolved_grid(const Grid& grid);

/// Beyond this angle from the axis nothing passes: atan(w/t). The full beam is twice it.
double cutoff_half_angle_deg(double cell_ratio);

/// u = tan θ t/w at which half the light passes. Round cells; square ones along a side and along
/// the diagonal.
double half_transmittance_u_round();
inline constexpr double half_transmittance_u_square_side = 0.5;
double half_transmittance_u_square_diagonal();

/// Cell ratio of a grid sold by an angle, either way of reading it (round cells).
double cell_ratio_from_full_cutoff(double full_angle_deg);
double cell_ratio_from_half_intensity_width(double full_angle_deg);

/// Share of a Lambertian face's flux that passes round cells: the view factor between a cell's two
/// coaxial equal mouths (Siegel and Howell).
double flux_through_round_cells(double cell_ratio);

/// Where the beam of a full angle falls at a distance: the core, and the outer edge that part of
/// the mouth still reaches.
struct GridFootprint {
    double core_m = 0.0, outer_m = 0.0;
};
GridFootprint grid_footprint(double full_angle_deg, double distance_m, double mouth_m);

} // namespace keystead
