#include "sim/portrait/face_light.h"

#include <algorithm>
#include <cmath>

namespace keystead {

namespace {

std::vector<double> gauss_weights(double sigma_cells) {
    const int reach = static_cast<int>(std::ceil(3.0 * sigma_cells));
    std::vector<double> weights;
    for (int i = 0; i <= reach; ++i)
        weights.push_back(std::exp(-0.5 * (i / sigma_cells) * (i / sigma_cells)));
    return weights;
}

/// One pass of the separable blur along rows (step 1) or columns (step = columns).
void blur_pass(int lines, int length, std::size_t line_step, std::size_t step,
               const std::vector<double>& weights, const std::vector<double>& from,
               std::vector<double>& into) {
    const int reach = static_cast<int>(weights.size()) - 1;
    for (int line = 0; line < lines; ++line) {
        const std::size_t first = static_cast<std::size_t>(line) * line_step;
        for (int i = 0; i < length; ++i) {
            double sum = 0.0;
            for (int k = std::max(0, i - reach); k <= std::min(length - 1, i + reach); ++k)
                sum += weights[static_cast<std::size_t>(std::abs(k - i))] *
                       from[first + static_cast<std::size_t>(k) * step];
            into[first + static_cast<std::size_t>(i) * step] = sum;
        }
    }
}

std::vector<double> blur_sum(const ChartGrid& grid, const std::vector<double>& field,
                             const std::vector<double>& weights) {
    const auto columns = static_cast<std::size_t>(grid.columns);
    std::vector<double> across(field.size()), both(field.size());
    blur_pass(grid.rows, grid.columns, columns, 1, weights, field, across);
    blur_pass(grid.columns, grid.rows, 1, columns, weights, across, both);
    return both;
}

} // namespace

std::vector<double> blurred(const ChartGrid& grid, const std::vector<double>& field,
                            double sigma_mm) {
    const std::vector<double> weights = gauss_weights(sigma_mm / grid.cell_mm);
    std::vector<double> covered(grid.covered.begin(), grid.covered.end());
    const std::vector<double> sum = blur_sum(grid, field, weights);
    const std::vector<double> weight = blur_sum(grid, covered, weights);
    std::vector<double> result(field.size(), 0.0);
    for (std::size_t cell = 0; cell < field.size(); ++cell)
        if (grid.covered[cell] != 0) result[cell] = sum[cell] / weight[cell];
    return result;
}

} // namespace keystead
