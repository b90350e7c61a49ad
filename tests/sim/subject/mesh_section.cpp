#include "mesh_section.h"

#include "sim/subject/measuring.h"

#include <cmath>

namespace mesh_measures {

using namespace keystead;

std::vector<Chord> cut(const Mesh& mesh, const Vec3& point_mm, const Vec3& axis,
                       const std::function<bool(Region, const Vec3&)>& keep) {
    std::vector<Chord> chords;
    for (const glm::uvec3& t : mesh.triangles) {
        Vec3 found[2];
        int count = 0;
        bool kept = true;
        for (glm::length_t e = 0; e < 3 && kept; ++e) {
            const auto i = t[e], j = t[(e + 1) % 3];
            const Vec3 a = Vec3(mesh.positions_m[i]) * 1000.0;
            const Vec3 b = Vec3(mesh.positions_m[j]) * 1000.0;
            kept = !keep || keep(static_cast<Region>(mesh.regions[i]), a);
            const double da = glm::dot(a - point_mm, axis), db = glm::dot(b - point_mm, axis);
            if ((da < 0.0) != (db < 0.0) && count < 2)
                found[count++] = glm::mix(a, b, da / (da - db));
        }
        if (kept && count == 2) chords.push_back({found[0], found[1]});
    }
    return chords;
}

std::optional<double> outermost(const std::vector<Chord>& chords, int along, double value, int of) {
    std::optional<double> best;
    for (const Chord& c : chords) {
        const double a = c.a[along], b = c.b[along];
        if ((a < value) == (b < value)) continue;
        const double out = glm::mix(c.a[of], c.b[of], (value - a) / (b - a));
        if (!best || out > *best) best = out;
    }
    return best;
}

std::size_t Profile::index_of(double value) const {
    std::size_t best = 0;
    for (std::size_t i = 0; i < at.size(); ++i)
        if (std::abs(at[i] - value) < std::abs(at[best] - value)) best = i;
    return best;
}

Profile profile(const std::vector<Chord>& chords, int along, double from, double to, int of,
                double step) {
    Profile p;
    const int count = static_cast<int>(std::abs(to - from) / step);
    for (int i = 0; i <= count; ++i) {
        const double value = from + (to > from ? step : -step) * i + 1e-7;
        if (const auto out = outermost(chords, along, value, of)) {
            p.at.push_back(value);
            p.out.push_back(*out);
        }
    }
    return p;
}

std::size_t walk(const Profile& p, std::size_t start, int step, bool falling, int patience) {
    std::size_t best = start;
    int past = 0;
    for (std::size_t i = start; i < p.out.size() && past < patience;
         i += static_cast<std::size_t>(step)) {
        const bool better = falling ? p.out[i] < p.out[best] : p.out[i] > p.out[best];
        past = better ? 0 : past + 1;
        if (better) best = i;
    }
    return best;
}

std::size_t middle_of_turn(const Profile& p, std::size_t turn) {
    std::size_t low = turn, high = turn;
    while (low > 0 && std::abs(p.out[low] - p.out[turn]) < 0.1) --low;
    while (high + 1 < p.out.size() && std::abs(p.out[high] - p.out[turn]) < 0.1) ++high;
    return (low + high) / 2;
}

double tape(const std::vector<Chord>& chords, const Vec3& axis) {
    const Vec3 side = glm::normalize(Vec3(1, 0, 0) - axis * axis.x);
    const Vec3 ahead = glm::cross(side, axis);
    std::vector<Vec2> points;
    for (const Chord& c : chords)
        for (const Vec3& p : {c.a, c.b}) points.emplace_back(glm::dot(p, side), glm::dot(p, ahead));
    return sculpt::hull_perimeter(std::move(points));
}

} // namespace mesh_measures
