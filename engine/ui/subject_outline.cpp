#include "engine/ui/subject_outline.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace keystead::ui {

namespace {

constexpr double no_value = std::numeric_limits<double>::infinity();

/// Greatest and least z in each slice of height, over triangles so that coarse meshes leave no gap.
struct Slices {
    double bottom_m = 0.0, step_m = 0.0125;
    std::vector<double> least, greatest;

    Slices(double low_m, double high_m)
        : bottom_m(low_m) {
        const auto count =
            static_cast<std::size_t>(std::max(1.0, std::ceil((high_m - low_m) / step_m))) + 1;
        least.assign(count, no_value);
        greatest.assign(count, -no_value);
    }
    std::size_t index(double y_m) const {
        const double at =
            std::clamp((y_m - bottom_m) / step_m, 0.0, static_cast<double>(least.size() - 1));
        return static_cast<std::size_t>(at);
    }
    void put(double y_m, double z_m) {
        const std::size_t i = index(y_m);
        least[i] = std::min(least[i], z_m);
        greatest[i] = std::max(greatest[i], z_m);
    }
    void edge(const glm::vec3& a, const glm::vec3& b) {
        const int steps = 1 + static_cast<int>(std::abs(a.y - b.y) / step_m);
        for (int i = 0; i <= steps; ++i) {
            const float t = static_cast<float>(i) / static_cast<float>(steps);
            put(a.y + (b.y - a.y) * t, a.z + (b.z - a.z) * t);
        }
    }
    Outline outline() const {
        Outline shape;
        for (std::size_t i = 0; i < least.size(); ++i)
            if (least[i] < no_value)
                shape.push_back({greatest[i], bottom_m + (static_cast<double>(i) + 0.5) * step_m});
        for (std::size_t i = least.size(); i-- > 0;)
            if (least[i] < no_value)
                shape.push_back({least[i], bottom_m + (static_cast<double>(i) + 0.5) * step_m});
        return shape;
    }
};

Outline side_of(std::initializer_list<const Mesh*> meshes) {
    double low = no_value, high = -no_value;
    for (const Mesh* mesh : meshes)
        for (const glm::vec3& p : mesh->positions_m) {
            low = std::min(low, static_cast<double>(p.y));
            high = std::max(high, static_cast<double>(p.y));
        }
    if (low >= high) return {};
    Slices slices(low, high);
    for (const Mesh* mesh : meshes)
        for (const glm::uvec3& t : mesh->triangles)
            for (int k = 0; k < 3; ++k)
                slices.edge(mesh->positions_m[t[k]], mesh->positions_m[t[(k + 1) % 3]]);
    return slices.outline();
}

/// Convex outline from above of the vertices between two heights.
Outline plan_of(std::initializer_list<const Mesh*> meshes, double from_m, double to_m) {
    std::vector<Vec2> points;
    for (const Mesh* mesh : meshes)
        for (const glm::vec3& p : mesh->positions_m)
            if (p.y >= from_m && p.y <= to_m) points.push_back({p.x, p.z});
    std::sort(points.begin(), points.end(),
              [](const Vec2& a, const Vec2& b) { return a.x < b.x || (a.x == b.x && a.y < b.y); });
    const auto turn = [](const Vec2& o, const Vec2& a, const Vec2& b) {
        return (a.x - o.x) * (b.y - o.y) - (a.y - o.y) * (b.x - o.x);
    };
    Outline hull;
    for (int pass = 0; pass < 2; ++pass) {
        const std::size_t start = hull.size();
        for (const Vec2& p : points) {
            while (hull.size() >= start + 2 && turn(hull[hull.size() - 2], hull.back(), p) <= 1e-9)
                hull.pop_back();
            hull.push_back(p);
        }
        if (!hull.empty()) hull.pop_back();
        std::reverse(points.begin(), points.end());
    }
    return hull;
}

} // namespace

SubjectOutline outline_of(const PosedSubject& subject) {
    static const Mesh nothing;
    const auto mesh = [](const std::shared_ptr<const Mesh>& m) { return m ? m.get() : &nothing; };
    const Mesh *skin = mesh(subject.skin), *hair = mesh(subject.hair),
               *clothing = mesh(subject.clothing);
    SubjectOutline outline;
    outline.side = side_of({skin, hair, clothing});
    outline.side_hair = side_of({hair});
    const double chin_m = subject.landmarks.menton.y - 0.01;
    outline.plan_head = plan_of({skin, hair}, chin_m, no_value);
    outline.plan_hair = plan_of({hair}, subject.landmarks.glabella.y, no_value);
    outline.plan_body = plan_of({skin, clothing}, -no_value, chin_m);
    outline.lowest_m = outline.side.empty() ? 0.0 : no_value;
    for (const Vec2& p : outline.side) outline.lowest_m = std::min(outline.lowest_m, p.y);
    return outline;
}

} // namespace keystead::ui
