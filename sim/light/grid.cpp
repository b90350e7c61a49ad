#include "sim/light/grid.h"

#include "sim/light/emission_text.h"

#include <cmath>

namespace keystead {

double cell_ratio(const Grid& grid) {
    switch (grid.reading) {
    case GridReading::full_cutoff:
        return cell_ratio_from_full_cutoff(grid.nominal_deg);
    case GridReading::half_intensity:
        return grid.cell == GridCell::square
                   ? std::tan(radians(0.5 * grid.nominal_deg)) / half_transmittance_u_square_side
                   : cell_ratio_from_half_intensity_width(grid.nominal_deg);
    case GridReading::cells:
        break;
    }
    return grid.cell_width_m / grid.cell_depth_m;
}

Grid resolved_grid(const Grid& grid) {
    Grid resolved = grid;
    if (grid.reading != GridReading::cells)
        resolved.cell_depth_m = grid.cell_width_m / cell_ratio(grid);
    return resolved;
}

double cutoff_half_angle_deg(double cell_ratio) {
    return degrees(std::atan(cell_ratio));
}

double half_transmittance_u_round() {
    // Bisection: transmittance falls all the way from 1 to 0.
    double low = 0.0, high = 1.0;
    for (int i = 0; i < 60; ++i) {
        const double middle = 0.5 * (low + high);
        (emission::round_cell_transmittance(middle) > 0.5 ? low : high) = middle;
    }
    return low;
}

double half_transmittance_u_square_diagonal() {
    return std::sqrt(2.0) - 1.0; // root of (1 - u/sqrt 2)² = 1/2
}

double cell_ratio_from_full_cutoff(double full_angle_deg) {
    return std::tan(radians(0.5 * full_angle_deg));
}

double cell_ratio_from_half_intensity_width(double full_angle_deg) {
    return std::tan(radians(0.5 * full_angle_deg)) / half_transmittance_u_round();
}

double flux_through_round_cells(double cell_ratio) {
    const double radius = 0.5 * cell_ratio;
    const double s = 2.0 + 1.0 / (radius * radius);
    return 2.0 / (s + std::sqrt(s * s - 4.0)); // (s - sqrt(s² - 4))/2 without the cancellation
}

GridFootprint grid_footprint(double full_angle_deg, double distance_m, double mouth_m) {
    const double core_m = 2.0 * distance_m * std::tan(radians(0.5 * full_angle_deg));
    return {core_m, core_m + mouth_m};
}

} // namespace keystead
