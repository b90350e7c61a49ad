// Configuration factors of faces parallel to a plane, for the tests of both fillers.
#pragma once

#include "sim/base/vec.h"

#include <cmath>

namespace keystead {

/// Configuration factor of a disc from a plane parallel to it, `aside_m` off its axis (Siegel and
/// Howell, Thermal Radiation Heat Transfer; from memory; values confirmed by quadrature in
/// tests/data/checks.csv).
inline double disc_factor(double radius_m, double distance_m, double aside_m) {
    if (aside_m < 1e-9)
        return radius_m * radius_m / (radius_m * radius_m + distance_m * distance_m);
    const double h = distance_m / aside_m, r = radius_m / aside_m, z = 1.0 + h * h + r * r;
    return 0.5 * (1.0 - (1.0 + h * h - r * r) / std::sqrt(z * z - 4.0 * r * r));
}

/// Of a rectangle's corner over the place (the same book).
inline double corner_factor(double a_m, double b_m, double distance_m) {
    const double x = a_m / distance_m, y = b_m / distance_m;
    const double p = std::sqrt(1.0 + x * x), q = std::sqrt(1.0 + y * y);
    return (x / p * std::atan(y / p) + y / q * std::atan(x / q)) / (2.0 * pi);
}

inline double rectangle_factor(double w_m, double h_m, double distance_m, double x_m, double y_m) {
    double sum = 0.0;
    for (const double sx : {-1.0, 1.0})
        for (const double sy : {-1.0, 1.0}) {
            const double a = 0.5 * w_m + sx * x_m, b = 0.5 * h_m + sy * y_m;
            sum += std::copysign(corner_factor(std::abs(a), std::abs(b), distance_m), a * b);
        }
    return sum;
}

} // namespace keystead
