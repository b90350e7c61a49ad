#include "sim/subject/surface.h"

#include <array>
#include <map>

namespace keystead::sculpt {

namespace {

using Edge = std::pair<std::uint32_t, std::uint32_t>;

std::map<Edge, std::vector<std::uint32_t>> crowded_edges(const Surface& surface) {
    std::map<Edge, std::vector<std::uint32_t>> users;
    // Few points have an edge out of order; their triangles alone are looked at.
    std::vector<Edge> edges;
    edges.reserve(surface.triangles.size() * 3);
    for (const glm::uvec3& t : surface.triangles)
        for (glm::length_t e = 0; e < 3; ++e) edges.push_back(std::minmax({t[e], t[(e + 1) % 3]}));
    std::sort(edges.begin(), edges.end());
    for (std::size_t i = 0; i + 2 < edges.size(); ++i)
        if (edges[i] == edges[i + 2]) users[edges[i]];
    if (users.empty()) return users;
    for (std::uint32_t i = 0; i < surface.triangles.size(); ++i)
        for (glm::length_t e = 0; e < 3; ++e) {
            const glm::uvec3& t = surface.triangles[i];
            const auto found = users.find(std::minmax({t[e], t[(e + 1) % 3]}));
            if (found != users.end()) found->second.push_back(i);
        }
    return users;
}

// Triangles in the order in which they follow round the edge.
void sort_round(const Surface& s, const Edge& edge, std::vector<std::uint32_t>& triangles) {
    const Vec3 a = s.points[edge.first], axis = glm::normalize(s.points[edge.second] - a);
    const auto outward = [&](std::uint32_t triangle) {
        const glm::uvec3& t = s.triangles[triangle];
        const std::uint32_t third = t.x ^ t.y ^ t.z ^ edge.first ^ edge.second;
        const Vec3 v = s.points[third] - a;
        return v - axis * glm::dot(axis, v);
    };
    const Vec3 u = outward(triangles.front()), w = glm::cross(axis, u);
    const auto angle = [&](std::uint32_t triangle) {
        const Vec3 v = outward(triangle);
        return std::atan2(glm::dot(v, w), glm::dot(v, u));
    };
    std::sort(triangles.begin(), triangles.end(),
              [&](std::uint32_t x, std::uint32_t y) { return angle(x) < angle(y); });
}

// Cuts a triangle in two at a point of its edge.
void cut_at(Surface& s, std::uint32_t triangle, const Edge& edge, std::uint32_t middle) {
    glm::uvec3 first = s.triangles[triangle], second = first;
    for (glm::length_t e = 0; e < 3; ++e) {
        if (first[e] == edge.second) first[e] = middle;
        if (second[e] == edge.first) second[e] = middle;
    }
    s.triangles[triangle] = first;
    s.triangles.push_back(second);
}

} // namespace

void part_sheets(Surface& surface) {
    // A cut changes the other edges of its triangles: one round for each edge of a triangle.
    for (int round = 0; round < 3; ++round) {
        auto crowded = crowded_edges(surface);
        if (crowded.empty()) return;
        std::vector<bool> cut(surface.triangles.size(), false);
        for (auto& [edge, triangles] : crowded) {
            if (triangles.size() != 4) continue;
            if (std::any_of(triangles.begin(), triangles.end(), [&](auto t) { return cut[t]; }))
                continue;
            sort_round(surface, edge, triangles);
            for (std::size_t pair = 0; pair < 4; pair += 2) {
                const auto middle = static_cast<std::uint32_t>(surface.points.size());
                surface.points.push_back(
                    0.5 * (surface.points[edge.first] + surface.points[edge.second]));
                for (const std::size_t side : {pair, pair + 1}) {
                    cut[triangles[side]] = true;
                    cut_at(surface, triangles[side], edge, middle);
                }
            }
        }
    }
}

} // namespace keystead::sculpt
