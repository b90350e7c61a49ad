#include "sim/light/configuration_factor.h"

#include "sim/light/emission_text.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace keystead {

namespace {

/// The part of a polygon above the receptor's plane (Sutherland and Hodgman's cut by one plane).
std::vector<Vec3> above_horizon(std::span<const Vec3> vertices, const Vec3& normal) {
    std::vector<Vec3> kept;
    for (std::size_t i = 0; i < vertices.size(); ++i) {
        const Vec3& here = vertices[i];
        const Vec3& next = vertices[(i + 1) % vertices.size()];
        const double height = glm::dot(here, normal), next_height = glm::dot(next, normal);
        if (height >= 0.0) kept.push_back(here);
        if ((height < 0.0) != (next_height < 0.0))
            kept.push_back(here + (next - here) * (height / (height - next_height)));
    }
    return kept;
}

/// Nodes and weights of 16-point Gauss-Legendre on -1..1, the positive half (Abramowitz and
/// Stegun, table 25.4).
constexpr std::array<std::array<double, 2>, 8> gauss16 = {{
    {0.0950125098376374, 0.1894506104550685},
    {0.2816035507792589, 0.1826034150449236},
    {0.4580167776572274, 0.1691565193950025},
    {0.6178762444026438, 0.1495959888165767},
    {0.7554044083550030, 0.1246289712555339},
    {0.8656312023878318, 0.0951585116824928},
    {0.9445750230732326, 0.0622535239386479},
    {0.9894009349916499, 0.0271524594117541},
}};

template <class Function>
double integral(double from, double to, int pieces, Function function) {
    const double half = 0.5 * (to - from) / pieces;
    double sum = 0.0;
    for (int piece = 0; piece < pieces; ++piece) {
        const double middle = from + (2 * piece + 1) * half;
        for (const auto& [node, weight] : gauss16)
            sum += weight * (function(middle - half * node) + function(middle + half * node));
    }
    return sum * half;
}

} // namespace

double disc_on_axis(double r, double d) {
    return r * r / (r * r + d * d);
}

double disc_offset_parallel(double radius_m, double distance_m, double offset_m) {
    if (offset_m <= 0.0) return disc_on_axis(radius_m, distance_m);
    const double h = distance_m / offset_m, r = radius_m / offset_m;
    const double z = 1.0 + h * h + r * r;
    return 0.5 * (1.0 - (1.0 + h * h - r * r) / std::sqrt(z * z - 4.0 * r * r));
}

double disc_offset_perpendicular(double radius_m, double distance_m, double offset_m) {
    const double h = distance_m / offset_m, r = radius_m / offset_m;
    const double z = 1.0 + h * h + r * r;
    return 0.5 * h * (z / std::sqrt(z * z - 4.0 * r * r) - 1.0);
}

double rectangle_corner_parallel(double width_m, double height_m, double distance_m) {
    const double x = width_m / distance_m, y = height_m / distance_m;
    const double rx = std::sqrt(1.0 + x * x), ry = std::sqrt(1.0 + y * y);
    return (x / rx * std::atan(y / rx) + y / ry * std::atan(x / ry)) / (2.0 * pi);
}

double rectangle_corner_perpendicular(double height_m, double along_m, double distance_m) {
    const double x = height_m / along_m, y = distance_m / along_m;
    const double r = std::sqrt(x * x + y * y);
    return (std::atan(1.0 / y) - y / r * std::atan(1.0 / r)) / (2.0 * pi);
}

double rectangle_parallel(double width_m, double height_m, double distance_m,
                          const Vec2& offset_m) {
    // The factor of the corner rectangle is odd in each side, so corners add with their signs.
    const auto corner = [&](double x, double y) {
        const double size = rectangle_corner_parallel(std::abs(x), std::abs(y), distance_m);
        return (x < 0.0) != (y < 0.0) ? -size : size;
    };
    const double left = -0.5 * width_m - offset_m.x, right = 0.5 * width_m - offset_m.x;
    const double bottom = -0.5 * height_m - offset_m.y, top = 0.5 * height_m - offset_m.y;
    return corner(right, top) - corner(left, top) - corner(right, bottom) + corner(left, bottom);
}

double polygon_factor(std::span<const Vec3> vertices_m, const Vec3& point_m, const Vec3& normal) {
    std::vector<Vec3> relative;
    for (const Vec3& vertex : vertices_m) relative.push_back(vertex - point_m);
    const std::vector<Vec3> seen = above_horizon(relative, normal);
    double sum = 0.0;
    for (std::size_t i = 0; i < seen.size(); ++i) {
        const Vec3& a = seen[i];
        const Vec3& b = seen[(i + 1) % seen.size()];
        const Vec3 across = glm::cross(a, b);
        const double length = glm::length(across);
        // atan2 keeps its digits where acos of a cosine near 1 loses half of them.
        if (length > 0.0)
            sum += std::atan2(length, glm::dot(a, b)) * glm::dot(across, normal) / length;
    }
    return std::abs(sum) / (2.0 * pi);
}

std::vector<Vec3> octagon_vertices(double circumradius_m) {
    std::vector<Vec3> vertices;
    for (int i = 0; i < 8; ++i) {
        const double angle = pi / 8.0 + i * pi / 4.0;
        vertices.emplace_back(circumradius_m * std::cos(angle), circumradius_m * std::sin(angle),
                              0.0);
    }
    return vertices;
}

double equal_area_radius_of_octagon_m(double circumradius_m) {
    return circumradius_m * std::sqrt(2.0 * std::sqrt(2.0) / pi);
}

double gridded_disc_on_axis(double radius_m, double distance_m, double cell_ratio) {
    // With u = tan θ / cell_ratio and u = cos x the integrand is smooth at the cut-off too.
    const double rim = std::min(radius_m / distance_m / cell_ratio, 1.0);
    const auto integrand = [&](double x) {
        const double u = std::cos(x), slope = cell_ratio * u;
        const double cosine2 = 1.0 / (1.0 + slope * slope);
        return emission::round_cell_transmittance(u) * slope * cosine2 * cosine2 * cell_ratio *
               std::sin(x);
    };
    return 2.0 * integral(std::acos(rim), 0.5 * pi, 8, integrand);
}

double point_source_excess(double area_m2, double distance_m, double factor) {
    return area_m2 / (pi * distance_m * distance_m) / factor - 1.0;
}

} // namespace keystead
