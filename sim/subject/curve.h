// Curves over a height: natural cubic splines, and monotone ones for maps that must not fold.
#pragma once

#include <utility>
#include <vector>

namespace keystead::sculpt {

/// How slopes at the knots are chosen.
enum class CurveKind {
    natural, ///< C2 natural spline
    monotone ///< Fritsch and Carlson 1980: rises wherever its knots rise
};

/// Piecewise cubic through knots with any order of abscissae; constant slope past the ends for
/// monotone curves, constant value for natural ones.
class Curve {
public:
    Curve() = default;
    explicit Curve(std::vector<std::pair<double, double>> knots,
                   CurveKind kind = CurveKind::natural);
    double operator()(double x) const;

private:
    std::size_t interval(double x) const;

    std::vector<double> x_, y_, slope_;
    std::vector<unsigned short> lookup_; ///< interval at evenly spaced x, to start the search
    double per_step_ = 0.0;
    bool extend_ = false;
};

} // namespace keystead::sculpt
