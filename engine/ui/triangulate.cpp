#include "engine/ui/triangulate.h"

#include <algorithm>
#include <numeric>

namespace keystead::ui {

namespace {

float turn(const ImVec2& o, const ImVec2& a, const ImVec2& b) {
    return (a.x - o.x) * (b.y - o.y) - (a.y - o.y) * (b.x - o.x);
}

bool holds(const ImVec2& a, const ImVec2& b, const ImVec2& c, const ImVec2& p) {
    return turn(a, b, p) > 0.0F && turn(b, c, p) > 0.0F && turn(c, a, p) > 0.0F;
}

bool is_ear(std::span<const ImVec2> p, const std::vector<std::size_t>& left, std::size_t i) {
    const std::size_t n = left.size();
    const ImVec2 &a = p[left[(i + n - 1) % n]], &b = p[left[i]], &c = p[left[(i + 1) % n]];
    if (turn(a, b, c) <= 0.0F) return false;
    return std::none_of(left.begin(), left.end(),
                        [&](std::size_t k) { return holds(a, b, c, p[k]); });
}

} // namespace

std::vector<Triangle> triangulate(std::span<const ImVec2> points) {
    std::vector<Triangle> triangles;
    std::vector<std::size_t> left(points.size());
    std::iota(left.begin(), left.end(), std::size_t{0});
    float twice = 0.0F;
    for (std::size_t i = 0; i < points.size(); ++i)
        twice += turn({0, 0}, points[i], points[(i + 1) % points.size()]);
    if (twice < 0.0F) std::reverse(left.begin(), left.end());
    std::size_t i = 0, idle = 0;
    while (left.size() > 3 && idle < left.size()) {
        const std::size_t n = left.size();
        i %= n;
        if (is_ear(points, left, i)) {
            triangles.push_back({left[(i + n - 1) % n], left[i], left[(i + 1) % n]});
            left.erase(left.begin() + static_cast<std::ptrdiff_t>(i));
            idle = 0;
        } else {
            ++i, ++idle;
        }
    }
    if (left.size() == 3) triangles.push_back({left[0], left[1], left[2]});
    return triangles;
}

} // namespace keystead::ui
