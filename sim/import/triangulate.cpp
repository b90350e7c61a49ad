#include "sim/import/triangulate.h"

#include <cmath>

namespace keystead::importing {

namespace {

constexpr std::size_t most_clipped = 256;

using Flat = std::vector<glm::dvec2>;

/// The polygon seen along its vector area (Newell), so that it runs counter-clockwise.
Flat flattened(std::span<const glm::vec3> corners) {
    const glm::dvec3 origin(corners[0]);
    glm::dvec3 area(0.0);
    for (std::size_t i = 0; i < corners.size(); ++i)
        area += glm::cross(glm::dvec3(corners[i]) - origin,
                           glm::dvec3(corners[(i + 1) % corners.size()]) - origin);
    const double length = glm::length(area);
    if (!(length > 0.0)) return {};
    const glm::dvec3 w = area / length;
    const glm::dvec3 helper = std::abs(w.x) < 0.6 ? glm::dvec3(1, 0, 0) : glm::dvec3(0, 1, 0);
    const glm::dvec3 u = glm::normalize(glm::cross(helper, w));
    const glm::dvec3 v = glm::cross(w, u);
    Flat flat;
    for (const glm::vec3& corner : corners) {
        const glm::dvec3 p = glm::dvec3(corner) - origin;
        flat.emplace_back(glm::dot(p, u), glm::dot(p, v));
    }
    return flat;
}

double turn(const glm::dvec2& a, const glm::dvec2& b, const glm::dvec2& c) {
    return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

/// Is corner `k` of what is left an ear: convex, with no other corner inside?
bool is_ear(const Flat& flat, const std::vector<glm::uint>& left, std::size_t k) {
    const std::size_t n = left.size();
    const glm::uint before = left[(k + n - 1) % n], here = left[k], after = left[(k + 1) % n];
    const glm::dvec2 &a = flat[before], &b = flat[here], &c = flat[after];
    if (!(turn(a, b, c) > 0.0)) return false;
    for (const glm::uint other : left) {
        if (other == before || other == here || other == after) continue;
        const glm::dvec2& p = flat[other];
        if (turn(a, b, p) >= 0.0 && turn(b, c, p) >= 0.0 && turn(c, a, p) >= 0.0) return false;
    }
    return true;
}

void add_fan(const std::vector<glm::uint>& left, std::vector<glm::uvec3>& triangles) {
    for (std::size_t i = 1; i + 1 < left.size(); ++i)
        triangles.emplace_back(left[0], left[i], left[i + 1]);
}

} // namespace

std::vector<glm::uvec3> triangulate(std::span<const glm::vec3> corners) {
    std::vector<glm::uvec3> triangles;
    if (corners.size() < 3) return triangles;
    std::vector<glm::uint> left(corners.size());
    for (glm::uint i = 0; i < left.size(); ++i) left[i] = i;
    const Flat flat = corners.size() <= most_clipped ? flattened(corners) : Flat{};
    while (!flat.empty() && left.size() > 3) {
        std::size_t ear = 0;
        while (ear < left.size() && !is_ear(flat, left, ear)) ++ear;
        if (ear == left.size()) break;
        const std::size_t n = left.size();
        triangles.emplace_back(left[(ear + n - 1) % n], left[ear], left[(ear + 1) % n]);
        left.erase(left.begin() + static_cast<std::ptrdiff_t>(ear));
    }
    add_fan(left, triangles);
    return triangles;
}

} // namespace keystead::importing
