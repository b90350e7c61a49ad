#include "sim/subject/curve.h"

#include <algorithm>
#include <cmath>

namespace keystead::sculpt {

namespace {

constexpr std::size_t lookup_size = 128;

// Slopes of the natural spline: the tridiagonal system of first derivatives, by elimination.
std::vector<double> natural_slopes(const std::vector<double>& x, const std::vector<double>& y) {
    const std::size_t n = x.size();
    std::vector<double> diagonal(n), right(n), upper(n, 0.0);
    const auto h = [&](std::size_t i) { return x[i + 1] - x[i]; };
    const auto rise = [&](std::size_t i) { return (y[i + 1] - y[i]) / h(i); };
    diagonal[0] = 2.0, upper[0] = 1.0, right[0] = 3.0 * rise(0);
    for (std::size_t i = 1; i < n; ++i) {
        const bool last = i + 1 == n;
        const double low = last ? 1.0 : 1.0 / h(i - 1);
        diagonal[i] = last ? 2.0 : 2.0 / h(i - 1) + 2.0 / h(i);
        upper[i] = last ? 0.0 : 1.0 / h(i);
        right[i] = last ? 3.0 * rise(i - 1) : 3.0 * (rise(i - 1) / h(i - 1) + rise(i) / h(i));
        const double factor = low / diagonal[i - 1];
        diagonal[i] -= factor * upper[i - 1];
        right[i] -= factor * right[i - 1];
    }
    std::vector<double> slope(n);
    slope[n - 1] = right[n - 1] / diagonal[n - 1];
    for (std::size_t i = n - 1; i-- > 0;)
        slope[i] = (right[i] - upper[i] * slope[i + 1]) / diagonal[i];
    return slope;
}

// Weighted harmonic means of neighbouring secants keep every piece monotone.
std::vector<double> monotone_slopes(const std::vector<double>& x, const std::vector<double>& y) {
    const std::size_t n = x.size();
    std::vector<double> slope(n);
    const auto h = [&](std::size_t i) { return x[i + 1] - x[i]; };
    const auto rise = [&](std::size_t i) { return (y[i + 1] - y[i]) / h(i); };
    slope[0] = rise(0), slope[n - 1] = rise(n - 2);
    for (std::size_t i = 1; i + 1 < n; ++i) {
        const double before = rise(i - 1), after = rise(i);
        if (before * after <= 0.0) continue;
        const double w1 = 2.0 * h(i) + h(i - 1), w2 = h(i) + 2.0 * h(i - 1);
        slope[i] = (w1 + w2) / (w1 / before + w2 / after);
    }
    return slope;
}

} // namespace

Curve::Curve(std::vector<std::pair<double, double>> knots, CurveKind kind)
    : extend_(kind == CurveKind::monotone) {
    std::sort(knots.begin(), knots.end());
    for (const auto& [x, y] : knots) {
        x_.push_back(x);
        y_.push_back(y);
    }
    slope_ = kind == CurveKind::natural ? natural_slopes(x_, y_) : monotone_slopes(x_, y_);
    per_step_ = static_cast<double>(lookup_size) / (x_.back() - x_.front());
    std::size_t piece = 0;
    for (std::size_t i = 0; i < lookup_size; ++i) {
        const double x = x_.front() + static_cast<double>(i) / per_step_;
        while (piece + 2 < x_.size() && x_[piece + 1] <= x) ++piece;
        lookup_.push_back(static_cast<unsigned short>(piece));
    }
}

std::size_t Curve::interval(double x) const {
    const auto step = static_cast<std::size_t>((x - x_.front()) * per_step_);
    std::size_t piece = lookup_[std::min(step, lookup_size - 1)];
    while (piece + 2 < x_.size() && x_[piece + 1] <= x) ++piece;
    return piece;
}

double Curve::operator()(double x) const {
    if (x <= x_.front()) return y_.front() + (extend_ ? slope_.front() * (x - x_.front()) : 0.0);
    if (x >= x_.back()) return y_.back() + (extend_ ? slope_.back() * (x - x_.back()) : 0.0);
    const std::size_t i = interval(x);
    const double h = x_[i + 1] - x_[i];
    const double t = (x - x_[i]) / h, s = 1.0 - t;
    return s * s * ((1.0 + 2.0 * t) * y_[i] + t * h * slope_[i]) +
           t * t * ((1.0 + 2.0 * s) * y_[i + 1] - s * h * slope_[i + 1]);
}

} // namespace keystead::sculpt
