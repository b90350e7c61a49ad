#include "sim/shape/build/sheet.h"

#include "sim/shape/build/finish.h"

#include <algorithm>
#include <cmath>

namespace keystead::build {

Mesh sheet(int columns, int rows, const Surface& surface) {
    Mesh mesh;
    for (int row = 0; row <= rows; ++row)
        for (int column = 0; column <= columns; ++column)
            mesh.positions_m.emplace_back(
                surface(static_cast<double>(column) / columns, static_cast<double>(row) / rows));
    const auto width = static_cast<std::uint32_t>(columns + 1);
    for (std::uint32_t row = 0; row < static_cast<std::uint32_t>(rows); ++row)
        for (std::uint32_t column = 0; column + 1 < width; ++column) {
            const std::uint32_t corner = row * width + column;
            mesh.triangles.emplace_back(corner, corner + 1, corner + width + 1);
            mesh.triangles.emplace_back(corner, corner + width + 1, corner + width);
        }
    return mesh;
}

Mesh slab(int columns, int rows, const Surface& front, const Surface& back) {
    Mesh mesh = sheet(columns, rows, front);
    const auto behind = static_cast<std::uint32_t>(mesh.positions_m.size());
    append(mesh, reversed(sheet(columns, rows, back)));
    const auto width = static_cast<std::uint32_t>(columns + 1);
    const auto top = static_cast<std::uint32_t>(rows) * width;
    const auto edge = [&](std::uint32_t from, std::uint32_t to) {
        mesh.triangles.emplace_back(from, behind + from, behind + to);
        mesh.triangles.emplace_back(from, behind + to, to);
    };
    for (std::uint32_t column = 0; column + 1 < width; ++column) {
        edge(column, column + 1);
        edge(top + column + 1, top + column);
    }
    for (std::uint32_t row = 0; row < static_cast<std::uint32_t>(rows); ++row) {
        edge((row + 1) * width, row * width);
        edge(row * width + width - 1, (row + 1) * width + width - 1);
    }
    return mesh;
}

int cells(double length_m, double cell_m) {
    return std::max(1, static_cast<int>(std::ceil(length_m / cell_m - 1e-9)));
}

} // namespace keystead::build
