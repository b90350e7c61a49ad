#include "sim/support/foot_loads.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace keystead {

namespace {

/// Rows of the balance A N = b, with moments taken about the middle of the feet.
Vec3 balance_column(const Vec2& foot_m, const Vec2& middle_m) {
    return {1.0, foot_m.x - middle_m.x, foot_m.y - middle_m.y};
}

/// Least-squares balance on the feet picked by `used` (a bit each): N = Aᵀ (A Aᵀ)⁻¹ b.
std::optional<std::vector<double>> least_norm(const std::vector<Vec3>& columns, const Vec3& sought,
                                              unsigned used) {
    Mat3 gram(0.0);
    for (std::size_t i = 0; i < columns.size(); ++i)
        if ((used >> i & 1U) != 0U) gram += glm::outerProduct(columns[i], columns[i]);
    if (std::abs(glm::determinant(gram)) < 1e-12) return std::nullopt;
    const Vec3 factors = glm::inverse(gram) * sought;
    std::vector<double> loads(columns.size(), 0.0);
    for (std::size_t i = 0; i < columns.size(); ++i)
        if ((used >> i & 1U) != 0U) loads[i] = glm::dot(columns[i], factors);
    return loads;
}

double sum_of_squares(const std::vector<double>& values) {
    double sum = 0.0;
    for (const double value : values) sum += value * value;
    return sum;
}

bool presses(const std::vector<double>& loads, double weight_n) {
    return *std::min_element(loads.begin(), loads.end()) >= -1e-9 * weight_n;
}

/// The constrained optimum is the unconstrained one on the feet that stay loaded; there are few
/// feet, so every choice of them is tried.
std::vector<double> all_pressing(const std::vector<Vec3>& columns, const Vec3& sought,
                                 double weight_n, std::vector<double> otherwise) {
    bool found = false;
    double least = 0.0;
    for (unsigned used = 1; used < 1U << columns.size(); ++used) {
        const auto loads = least_norm(columns, sought, used);
        if (!loads || !presses(*loads, weight_n)) continue;
        const double squares = sum_of_squares(*loads);
        if (found && squares >= least) continue;
        found = true;
        least = squares;
        otherwise = *loads;
    }
    return otherwise;
}

} // namespace

std::vector<double> foot_loads_n(double weight_n, const Vec2& com_m,
                                 const std::vector<Vec2>& feet_m) {
    constexpr std::size_t most_feet = 12;
    if (feet_m.size() < 3 || feet_m.size() > most_feet) return {};
    Vec2 middle_m(0.0);
    for (const Vec2& foot : feet_m) middle_m += foot / static_cast<double>(feet_m.size());
    std::vector<Vec3> columns;
    columns.reserve(feet_m.size());
    for (const Vec2& foot : feet_m) columns.push_back(balance_column(foot, middle_m));
    const Vec3 sought = weight_n * balance_column(com_m, middle_m);

    const auto free = least_norm(columns, sought, ~0U);
    if (!free) return {};
    if (feet_m.size() == 3 || presses(*free, weight_n)) return *free;
    return all_pressing(columns, sought, weight_n, *free);
}

} // namespace keystead
