#include "tests/sim/transport/rectangle_factors.h"

#include <cmath>
#include <numbers>

namespace rectangle_factors {

namespace {

constexpr double pi = std::numbers::pi;

double parallel_term(double x, double y, double z) {
    const double x2 = std::sqrt(x * x + z * z), y2 = std::sqrt(y * y + z * z);
    return (y * x2 * std::atan(y / x2) + x * y2 * std::atan(x / y2) -
            0.5 * z * z * std::log(x * x + y * y + z * z)) /
           (2.0 * pi);
}

double perpendicular_term(double along, double first, double second) {
    const double square = first * first + second * second;
    const double root = std::sqrt(square);
    if (root <= 0.0)
        return -0.25 * (-along * along) * std::log(along * along + 1e-300) / (2.0 * pi);
    const double k = along / root;
    return (along * root * std::atan(k) -
            0.25 * square * (1.0 - k * k) * std::log(square * (1.0 + k * k))) /
           (2.0 * pi);
}

template <class Term>
double corner_sum(const Extent& from, const Extent& to, Term&& term) {
    const std::array<double, 2> x{from.low_1, from.high_1}, y{from.low_2, from.high_2};
    const std::array<double, 2> u{to.low_1, to.high_1}, v{to.low_2, to.high_2};
    double sum = 0.0;
    for (std::size_t i = 0; i < 2; ++i)
        for (std::size_t j = 0; j < 2; ++j)
            for (std::size_t k = 0; k < 2; ++k)
                for (std::size_t l = 0; l < 2; ++l)
                    sum += ((i + j + k + l) % 2 == 0 ? 1.0 : -1.0) * term(x[i], y[j], u[k], v[l]);
    return sum / ((from.high_1 - from.low_1) * (from.high_2 - from.low_2));
}

/// Patch `number` of a box: its wall, and its extent along the wall's axes in rising order.
struct Patch {
    std::size_t wall = 0, axis = 0;
    bool far = false;
    std::array<double, 3> low{}, high{};
};

Patch patch_of(const Box& box, std::size_t number) {
    const auto cuts = static_cast<std::size_t>(box.cuts);
    Patch p;
    p.wall = number / (cuts * cuts);
    p.axis = p.wall / 2;
    p.far = p.wall % 2 == 1;
    const std::size_t a = (p.axis + 1) % 3, b = (p.axis + 2) % 3;
    const std::size_t i = number % cuts, j = number / cuts % cuts;
    p.low[a] = box.size[a] * double(i) / double(cuts);
    p.high[a] = box.size[a] * double(i + 1) / double(cuts);
    p.low[b] = box.size[b] * double(j) / double(cuts);
    p.high[b] = box.size[b] * double(j + 1) / double(cuts);
    return p;
}

/// Distance range of a patch along `axis` from the plane that wall `other` lies in.
void distances(const Box& box, const Patch& p, const Patch& other, double& low, double& high) {
    const std::size_t axis = other.axis;
    low = other.far ? box.size[axis] - p.high[axis] : p.low[axis];
    high = other.far ? box.size[axis] - p.low[axis] : p.high[axis];
}

} // namespace

double parallel(const Extent& from, const Extent& to, double apart) {
    return corner_sum(from, to, [apart](double x, double y, double u, double v) {
        return parallel_term(x - u, y - v, apart);
    });
}

double perpendicular(const Extent& from, const Extent& to) {
    return corner_sum(from, to, [](double x, double y, double u, double v) {
        return perpendicular_term(x - u, y, v);
    });
}

double Box::factor(std::size_t from, std::size_t to) const {
    const Patch a = patch_of(*this, from), b = patch_of(*this, to);
    if (a.wall == b.wall) return 0.0;
    if (a.axis == b.axis) {
        const std::size_t i = (a.axis + 1) % 3, j = (a.axis + 2) % 3;
        return parallel({a.low[i], a.high[i], a.low[j], a.high[j]},
                        {b.low[i], b.high[i], b.low[j], b.high[j]}, size[a.axis]);
    }
    const std::size_t along = 3 - a.axis - b.axis;
    Extent first{a.low[along], a.high[along], 0, 0}, second{b.low[along], b.high[along], 0, 0};
    distances(*this, a, b, first.low_2, first.high_2);
    distances(*this, b, a, second.low_2, second.high_2);
    return perpendicular(first, second);
}

std::vector<double> irradiance(const Box& box, std::size_t glowing, int reflections) {
    const std::size_t count = box.patches();
    const std::size_t each = count / 6;
    std::vector<std::vector<double>> factors(count, std::vector<double>(count));
    for (std::size_t i = 0; i < count; ++i)
        for (std::size_t j = 0; j < count; ++j) factors[i][j] = box.factor(i, j);
    std::vector<double> sent(count, 0.0), total(count, 0.0);
    for (std::size_t i = 0; i < each; ++i) sent[glowing * each + i] = 1.0;
    for (int step = 0; step <= reflections; ++step) {
        std::vector<double> got(count, 0.0);
        for (std::size_t i = 0; i < count; ++i)
            for (std::size_t j = 0; j < count; ++j) got[i] += factors[i][j] * sent[j];
        for (std::size_t i = 0; i < count; ++i) {
            total[i] += got[i];
            sent[i] = box.reflectance[i / each] * got[i];
        }
    }
    return total;
}

} // namespace rectangle_factors
