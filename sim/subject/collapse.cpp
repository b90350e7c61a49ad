#include "sim/subject/collapse.h"

#include <numeric>

namespace keystead::sculpt {

namespace {

// Triangles round each vertex, packed.
struct Rings {
    std::vector<std::uint32_t> first, triangle;

    Rings(std::size_t points, const std::vector<glm::uvec3>& triangles)
        : first(points + 1, 0)
        , triangle(triangles.size() * 3) {
        for (const glm::uvec3& t : triangles)
            for (glm::length_t e = 0; e < 3; ++e) ++first[t[e] + 1];
        std::partial_sum(first.begin(), first.end(), first.begin());
        std::vector<std::uint32_t> next(first.begin(), first.end() - 1);
        for (std::uint32_t i = 0; i < triangles.size(); ++i)
            for (glm::length_t e = 0; e < 3; ++e) triangle[next[triangles[i][e]]++] = i;
    }
};

struct Candidate {
    double cost = 1.0;
    std::uint32_t from = 0, into = 0;
};

class Collapser {
public:
    Collapser(Surface& surface, const CollapseLimits& limits)
        : s_(surface) {
        fixed_ = rim_points(surface);
        stale_.assign(surface.points.size(), 1);
        best_.resize(surface.points.size());
        longest_.assign(surface.points.size(), limits.longest_mm * limits.size);
        if (limits.longest_at)
            for (std::size_t i = 0; i < surface.points.size(); ++i)
                longest_[i] =
                    std::min(longest_[i], limits.longest_at(surface.points[i]) * limits.size);
        chord_.assign(surface.points.size(), limits.chord_mm * limits.size);
        if (limits.ease_at)
            for (std::size_t i = 0; i < surface.points.size(); ++i)
                chord_[i] *= limits.ease_at(surface.points[i]);
    }

    // One round of merges that do not touch each other; false when too few are left to matter.
    bool pass() {
        const Rings rings(s_.points.size(), s_.triangles);
        std::vector<Candidate> candidates;
        for (std::uint32_t a = 0; a < s_.points.size(); ++a) {
            if (fixed_[a] || rings.first[a] == rings.first[a + 1]) continue;
            // Looked at again only when the surroundings have changed.
            if (stale_[a]) best_[a] = best_merge(rings, a);
            stale_[a] = 0;
            if (best_[a].cost < 1.0) candidates.push_back(best_[a]);
        }
        std::sort(candidates.begin(), candidates.end(), [](const Candidate& x, const Candidate& y) {
            return x.cost < y.cost || (x.cost == y.cost && x.from < y.from);
        });
        std::vector<char> touched(s_.points.size(), 0);
        std::size_t merged = 0;
        for (const Candidate& c : candidates) merged += apply(rings, c, touched) ? 1U : 0U;
        std::erase_if(s_.triangles, [](const glm::uvec3& t) { return t.x == t.y; });
        return merged * 400 > s_.points.size();
    }

private:
    bool on_plane(std::uint32_t i) const { return s_.mirrored && s_.points[i].x == 0.0; }

    // Sagitta of an edge between two points of the surface, from the turn of its normal, against
    // what is allowed there.
    double chord(std::uint32_t a, std::uint32_t b) const {
        const double length = glm::length(s_.points[a] - s_.points[b]);
        const double turn = glm::length(s_.normals[a] - s_.normals[b]);
        return length * turn * 0.125 / std::min(chord_[a], chord_[b]);
    }

    Candidate best_merge(const Rings& rings, std::uint32_t a) const {
        Candidate best{1.0, a, a};
        for (std::uint32_t r = rings.first[a]; r < rings.first[a + 1]; ++r) {
            // Each neighbour once: the one that follows a in one of its triangles.
            const glm::uvec3& t = s_.triangles[rings.triangle[r]];
            const std::uint32_t b = t.x == a ? t.y : t.y == a ? t.z : t.x;
            if (on_plane(a) && !on_plane(b)) continue;
            const double cost = merge_cost(rings, a, b, best.cost);
            if (cost < best.cost) best = {cost, a, b};
        }
        return best;
    }

    // Largest of the new edges' errors against their limits; `bound` or more means "do not".
    double merge_cost(const Rings& rings, std::uint32_t a, std::uint32_t b, double bound) const {
        double cost = chord(a, b);
        int shared = 0;
        for (std::uint32_t r = rings.first[a]; r < rings.first[a + 1] && cost < bound; ++r) {
            const glm::uvec3& t = s_.triangles[rings.triangle[r]];
            if (t.x == b || t.y == b || t.z == b) {
                ++shared;
                continue;
            }
            const std::uint32_t next = t.x == a ? t.y : t.y == a ? t.z : t.x;
            const double length = glm::length(s_.points[next] - s_.points[b]);
            cost = std::max({cost, chord(next, b), length / std::min(longest_[next], longest_[b])});
        }
        if (cost >= bound || shared != (on_plane(a) ? 1 : 2)) return 1.0;
        for (std::uint32_t r = rings.first[a]; r < rings.first[a + 1]; ++r) {
            const glm::uvec3& t = s_.triangles[rings.triangle[r]];
            if (t.x != b && t.y != b && t.z != b && !keeps_shape(t, a, b)) return 1.0;
        }
        return cost;
    }

    // The triangle with a moved to b: not flipped, not a sliver.
    bool keeps_shape(const glm::uvec3& t, std::uint32_t a, std::uint32_t b) const {
        Vec3 p[3];
        double facing = 0.0;
        for (glm::length_t e = 0; e < 3; ++e) p[e] = s_.points[t[e] == a ? b : t[e]];
        const Vec3 cross = glm::cross(p[1] - p[0], p[2] - p[0]);
        const double area = glm::length(cross);
        double longest = 0.0;
        for (int e = 0; e < 3; ++e) {
            const Vec3 side = p[(e + 1) % 3] - p[e];
            longest = std::max(longest, glm::dot(side, side));
        }
        if (area < 0.17 * longest) return false;
        facing = 1.0;
        for (glm::length_t e = 0; e < 3; ++e)
            facing = std::min(facing, glm::dot(cross, s_.normals[t[e] == a ? b : t[e]]) / area);
        return facing > 0.5;
    }

    // The two ends may share no neighbours but the ones across their common triangles.
    bool link_ok(const Rings& rings, std::uint32_t a, std::uint32_t b, int shared) const {
        std::uint32_t around[64];
        int count = 0;
        for (std::uint32_t r = rings.first[b]; r < rings.first[b + 1]; ++r)
            for (glm::length_t e = 0; e < 3; ++e) {
                const std::uint32_t v = s_.triangles[rings.triangle[r]][e];
                if (v == b || count == 64) continue;
                if (std::find(around, around + count, v) == around + count) around[count++] = v;
            }
        if (count > 14) return false;
        int common = 0;
        std::uint32_t seen[64];
        int seen_count = 0;
        for (std::uint32_t r = rings.first[a]; r < rings.first[a + 1]; ++r)
            for (glm::length_t e = 0; e < 3; ++e) {
                const std::uint32_t v = s_.triangles[rings.triangle[r]][e];
                if (v == a || v == b || seen_count == 64) continue;
                if (std::find(seen, seen + seen_count, v) != seen + seen_count) continue;
                seen[seen_count++] = v;
                if (std::find(around, around + count, v) != around + count) ++common;
            }
        return common == shared;
    }

    bool apply(const Rings& rings, const Candidate& c, std::vector<char>& touched) {
        const auto each_neighbour = [&](auto&& visit) {
            for (std::uint32_t r = rings.first[c.from]; r < rings.first[c.from + 1]; ++r)
                for (glm::length_t e = 0; e < 3; ++e) visit(s_.triangles[rings.triangle[r]][e]);
        };
        bool free = true;
        each_neighbour([&](std::uint32_t v) { free = free && !touched[v]; });
        if (!free) return false;
        if (!link_ok(rings, c.from, c.into, on_plane(c.from) ? 1 : 2)) {
            best_[c.from].cost = 1.0; // until its surroundings change
            return false;
        }
        each_neighbour([&](std::uint32_t v) { touched[v] = stale_[v] = 1; });
        for (std::uint32_t r = rings.first[c.from]; r < rings.first[c.from + 1]; ++r) {
            glm::uvec3& t = s_.triangles[rings.triangle[r]];
            for (glm::length_t e = 0; e < 3; ++e)
                if (t[e] == c.from) t[e] = c.into;
            if (t.x == t.y || t.y == t.z || t.z == t.x) t = glm::uvec3(0);
        }
        return true;
    }

    Surface& s_;
    std::vector<bool> fixed_;
    std::vector<char> stale_; ///< points whose best merge must be sought again
    std::vector<Candidate> best_;
    std::vector<double> longest_, chord_;
};

} // namespace

void collapse(Surface& surface, const CollapseLimits& limits) {
    Collapser collapser(surface, limits);
    for (int i = 0; i < limits.passes; ++i)
        if (!collapser.pass()) break;
    drop_unused_points(surface);
}

} // namespace keystead::sculpt
