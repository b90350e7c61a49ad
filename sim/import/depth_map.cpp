#include "sim/import/depth_map.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace keystead::importing {

namespace {

constexpr float nothing = std::numeric_limits<float>::lowest();

} // namespace

std::vector<double> spaced(double from, double to, double step) {
    const int last = static_cast<int>(std::floor((to - from) / step + 1e-9));
    std::vector<double> values;
    for (int i = 0; i <= last; ++i) values.push_back(from + i * step);
    return values;
}

ViewFrame ViewFrame::facing(double azimuth_deg, const Vec3& origin_m) {
    const double a = radians(azimuth_deg);
    return {origin_m,
            {std::cos(a), 0.0, -std::sin(a)},
            {0.0, 1.0, 0.0},
            {std::sin(a), 0.0, std::cos(a)}};
}

ViewFrame ViewFrame::leaning(double lean_deg) const {
    const double c = std::cos(radians(lean_deg)), s = std::sin(radians(lean_deg));
    return {origin_m, c * left - s * up, s * left + c * up, forward};
}

Vec3 ViewFrame::to_view(const Vec3& point_m) const {
    const Vec3 p = point_m - origin_m;
    return {glm::dot(p, left), glm::dot(p, up), glm::dot(p, forward)};
}

Vec3 ViewFrame::to_mesh(const Vec3& uvw_m) const {
    return origin_m + uvw_m.x * left + uvw_m.y * up + uvw_m.z * forward;
}

DepthMap::DepthMap(const Mesh& mesh, const ViewFrame& frame, const MapExtent& extent)
    : extent_(extent)
    , columns_(static_cast<int>(std::ceil(2.0 * extent.half_width_m / extent.cell_m)))
    , rows_(static_cast<int>(std::ceil((extent.high_m - extent.low_m) / extent.cell_m)))
    , cells_(static_cast<std::size_t>(columns_) * static_cast<std::size_t>(rows_), nothing) {
    std::vector<Vec3> seen;
    seen.reserve(mesh.positions_m.size());
    for (const glm::vec3& p : mesh.positions_m) {
        const Vec3 view = frame.to_view(Vec3(p));
        seen.push_back({(view.x + extent.half_width_m) / extent.cell_m,
                        (view.y - extent.low_m) / extent.cell_m, view.z});
    }
    for (const glm::uvec3& t : mesh.triangles) draw(seen[t.x], seen[t.y], seen[t.z]);
}

void DepthMap::reach(int column, int row, double w) {
    if (column < 0 || row < 0 || column >= columns_ || row >= rows_) return;
    float& cell = cells_[static_cast<std::size_t>(row * columns_ + column)];
    cell = std::max(cell, static_cast<float>(w));
}

/// Cell centres inside the triangle, and the corners themselves, so that small triangles count.
void DepthMap::draw(const Vec3& a, const Vec3& b, const Vec3& c) {
    for (const Vec3* p : {&a, &b, &c})
        if (std::abs(p->x) < 1e6 && std::abs(p->y) < 1e6)
            reach(static_cast<int>(std::floor(p->x)), static_cast<int>(std::floor(p->y)), p->z);
    const double area = (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
    if (area == 0.0) return;
    const auto bound = [](double low, int count) {
        return static_cast<int>(std::clamp(std::ceil(low - 0.5), 0.0, static_cast<double>(count)));
    };
    const int first_row = bound(std::min({a.y, b.y, c.y}), rows_);
    const int last_row = bound(std::max({a.y, b.y, c.y}) + 1e-9, rows_);
    const int first_column = bound(std::min({a.x, b.x, c.x}), columns_);
    const int last_column = bound(std::max({a.x, b.x, c.x}) + 1e-9, columns_);
    for (int row = first_row; row < last_row; ++row)
        for (int column = first_column; column < last_column; ++column) {
            const double x = column + 0.5, y = row + 0.5;
            const double s = ((b.x - x) * (c.y - y) - (b.y - y) * (c.x - x)) / area;
            const double t = ((c.x - x) * (a.y - y) - (c.y - y) * (a.x - x)) / area;
            if (s >= 0.0 && t >= 0.0 && s + t <= 1.0)
                reach(column, row, s * a.z + t * b.z + (1.0 - s - t) * c.z);
        }
}

std::optional<double> DepthMap::cell(int column, int row) const {
    if (column < 0 || row < 0 || column >= columns_ || row >= rows_) return std::nullopt;
    const float w = cells_[static_cast<std::size_t>(row * columns_ + column)];
    if (w == nothing) return std::nullopt;
    return static_cast<double>(w);
}

/// Between the four nearest cell centres, or the nearest alone where one of them shows nothing.
std::optional<double> DepthMap::at(double u_m, double v_m) const {
    const double x = (u_m + extent_.half_width_m) / extent_.cell_m - 0.5;
    const double y = (v_m - extent_.low_m) / extent_.cell_m - 0.5;
    if (!(std::abs(x) < 1e6 && std::abs(y) < 1e6)) return std::nullopt;
    const int column = static_cast<int>(std::floor(x)), row = static_cast<int>(std::floor(y));
    const auto a = cell(column, row), b = cell(column + 1, row);
    const auto c = cell(column, row + 1), d = cell(column + 1, row + 1);
    const double s = x - column, t = y - row;
    if (!a || !b || !c || !d) return cell(column + (s >= 0.5 ? 1 : 0), row + (t >= 0.5 ? 1 : 0));
    return (1 - t) * ((1 - s) * *a + s * *b) + t * ((1 - s) * *c + s * *d);
}

std::optional<double> DepthMap::mean(double u_m, double v_m, double radius_m) const {
    const int reach_cells = std::max(1, static_cast<int>(std::lround(radius_m / extent_.cell_m)));
    double sum = 0.0;
    int shown = 0, asked = 0;
    for (int j = -reach_cells; j <= reach_cells; ++j)
        for (int i = -reach_cells; i <= reach_cells; ++i) {
            if (i * i + j * j > reach_cells * reach_cells) continue;
            ++asked;
            if (const auto w = at(u_m + i * extent_.cell_m, v_m + j * extent_.cell_m)) {
                sum += *w;
                ++shown;
            }
        }
    if (2 * shown < asked) return std::nullopt;
    return sum / shown;
}

std::optional<double> DepthMap::ring(double u_m, double v_m, double radius_m) const {
    constexpr int places = 16;
    double sum = 0.0;
    for (int i = 0; i < places; ++i) {
        const double angle = 2.0 * pi * i / places;
        const auto w = at(u_m + radius_m * std::cos(angle), v_m + radius_m * std::sin(angle));
        if (!w) return std::nullopt;
        sum += *w;
    }
    return sum / places;
}

} // namespace keystead::importing
