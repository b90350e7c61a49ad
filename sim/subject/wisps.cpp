#include "sim/subject/wisps.h"

#include "sim/subject/field.h"

#include <algorithm>
#include <map>
#include <optional>
#include <tbb/parallel_for.h>
#include <unordered_map>

namespace keystead {

namespace {

using sculpt::mix;
using sculpt::smooth_step;

/// What the strands of a style are like.
struct Strands {
    int count, steps;
    double length_m, width_m;
    double loose_m; ///< how far ends stand off
    double stray;   ///< slope of their direction against the hair's
};

Strands strands_of(HairStyle style) {
    switch (style) {
    case HairStyle::tied:
        return {800, 5, 46e-3, 0.45e-3, 0.7e-3, 0.06};
    case HairStyle::bob:
        return {820, 5, 64e-3, 0.60e-3, 1.5e-3, 0.07};
    case HairStyle::long_hair:
        return {560, 6, 90e-3, 0.70e-3, 1.8e-3, 0.07};
    case HairStyle::curly:
        return {350, 9, 19e-3, 0.70e-3, 0.0, 0.0};
    default:
        return {1000, 4, 16e-3, 0.55e-3, 2.0e-3, 0.18};
    }
}

/// Repeatable numbers 0..1, a series of its own a strand.
class Dice {
public:
    explicit Dice(std::uint32_t strand)
        : state_(strand * 0x9E3779B1U + 0x85EBCA77U) {}
    double roll() {
        std::uint32_t h = state_;
        h = (h ^ (h >> 16U)) * 0x7FEB352DU;
        h = (h ^ (h >> 15U)) * 0x846CA68BU;
        h ^= h >> 16U;
        state_ += 0x9E3779B9U;
        return h / 4294967296.0;
    }
    double between(double low, double high) { return mix(low, high, roll()); }

private:
    std::uint32_t state_;
};

struct Place {
    Vec3 normal{0.0}, along{0.0}, colour{0.0};
    double off_m = 0.0; ///< outside the surface
};

/// A surface from its vertices: moving least squares over those close by (after Alexa et al. 2003),
/// which goes on smoothly a little beyond an edge.
class SmoothSurface {
public:
    /// Of the vertices that `wanted(i)`.
    template <class F>
    SmoothSurface(const Mesh& mesh, double reach_m, F&& wanted)
        : mesh_(mesh)
        , reach_m_(reach_m) {
        for (std::uint32_t i = 0; i < mesh.positions_m.size(); ++i)
            if (wanted(i)) cells_[cell_of(Vec3(mesh.positions_m[i]))].push_back(i);
    }

    std::optional<Place> at(const Vec3& p) const {
        Place place;
        double sum = 0.0;
        for (int x = -1; x <= 1; ++x)
            for (int y = -1; y <= 1; ++y)
                for (int z = -1; z <= 1; ++z) {
                    const auto found = cells_.find(cell_of(p + reach_m_ * Vec3(x, y, z)));
                    if (found == cells_.end()) continue;
                    for (const std::uint32_t i : found->second) add(place, sum, p, i);
                }
        if (sum <= 1e-9 || glm::length(place.normal) < 0.2 * sum) return std::nullopt;
        place.normal = glm::normalize(place.normal);
        place.along -= place.normal * glm::dot(place.along, place.normal);
        const double run = glm::length(place.along);
        place.along = run > 0.1 * sum ? place.along / run : Vec3(0.0);
        place.colour /= sum;
        place.off_m /= sum;
        return place;
    }

private:
    std::int64_t cell_of(const Vec3& p) const {
        const auto index = [this](double x) {
            return static_cast<std::int64_t>(std::floor(x / reach_m_)) & 0xFFFFF;
        };
        return index(p.x) << 40 | index(p.y) << 20 | index(p.z);
    }

    void add(Place& place, double& sum, const Vec3& p, std::uint32_t i) const {
        const Vec3 apart = p - Vec3(mesh_.positions_m[i]);
        const double near = 1.0 - glm::dot(apart, apart) / (reach_m_ * reach_m_);
        if (near <= 0.0) return;
        const double weight = near * near;
        const Vec3 normal(mesh_.normals[i]);
        sum += weight;
        place.normal += weight * normal;
        if (!mesh_.tangents.empty()) place.along += weight * Vec3(mesh_.tangents[i]);
        if (!mesh_.colours.empty()) place.colour += weight * Vec3(mesh_.colours[i]);
        place.off_m += weight * glm::dot(apart, normal);
    }

    const Mesh& mesh_;
    double reach_m_;
    std::unordered_map<std::int64_t, std::vector<std::uint32_t>> cells_;
};

/// Vertices where the hair ends on skin or cloth.
std::vector<char> rim_of(const Mesh& hair) {
    std::map<std::pair<std::uint32_t, std::uint32_t>, int> uses;
    for (const glm::uvec3& t : hair.triangles)
        for (glm::length_t e = 0; e < 3; ++e) ++uses[std::minmax(t[e], t[(e + 1) % 3])];
    std::vector<char> rim(hair.positions_m.size(), 0);
    for (const auto& [edge, count] : uses)
        if (count == 1) rim[edge.first] = rim[edge.second] = 1;
    return rim;
}

/// Running sums of the triangles' area, those at the rim counted more: that edge is what gives a
/// wig away.
std::vector<double> seed_sums(const Mesh& hair) {
    constexpr double at_rim = 7.0;
    const std::vector<char> rim = rim_of(hair);
    std::vector<double> sums;
    double sum = 0.0;
    for (const glm::uvec3& t : hair.triangles) {
        const Vec3 a(hair.positions_m[t.x]), b(hair.positions_m[t.y]), c(hair.positions_m[t.z]);
        const bool edge = (rim[t.x] | rim[t.y] | rim[t.z]) != 0;
        sum += glm::length(glm::cross(b - a, c - a)) * (edge ? at_rim : 1.0);
        sums.push_back(sum);
    }
    return sums;
}

Vec3 seed_at(const Mesh& hair, const std::vector<double>& sums, Dice& dice) {
    const auto found = std::upper_bound(sums.begin(), sums.end(), dice.roll() * sums.back());
    const auto index = std::min<std::size_t>(static_cast<std::size_t>(found - sums.begin()),
                                             hair.triangles.size() - 1);
    const glm::uvec3& t = hair.triangles[index];
    double u = dice.roll(), v = dice.roll();
    if (u + v > 1.0) u = 1.0 - u, v = 1.0 - v;
    return (1.0 - u - v) * Vec3(hair.positions_m[t.x]) + u * Vec3(hair.positions_m[t.y]) +
           v * Vec3(hair.positions_m[t.z]);
}

struct Knot {
    Vec3 place_m, normal, along;
};

/// What strands lie on: hair, and the skin that it grows from.
struct Bed {
    SmoothSurface hair, skin;

    /// Moves a point to `lift_m` over the hair, but never under the skin; nothing where the hair
    /// has ended. One that would run on along an edge, deep under the skin, has ended too.
    std::optional<Place> lay_down(Vec3& place_m, double lift_m) const {
        std::optional<Place> on_hair = hair.at(place_m);
        if (!on_hair || on_hair->along == Vec3(0.0)) return std::nullopt;
        place_m += on_hair->normal * (lift_m - on_hair->off_m);
        const std::optional<Place> on_skin = skin.at(place_m);
        const double under_m = on_skin ? lift_m - on_skin->off_m : 0.0;
        if (under_m > 2.2e-3) return std::nullopt;
        if (under_m > 0.0) place_m += on_skin->normal * under_m;
        return on_hair;
    }
};

Bed bed_of(const SubjectForm& form) {
    const Mesh& skin = *form.skin;
    const auto scalp = [&](std::uint32_t i) {
        return skin.positions_m[i].y > -0.12F &&
               skin.regions[i] != static_cast<std::uint8_t>(Region::ear);
    };
    return {SmoothSurface(*form.hair, 9e-3, [](std::uint32_t) { return true; }),
            SmoothSurface(skin, 14e-3, scalp)};
}

/// Runs along the hair and leaves it toward its end; over an edge it hangs on a little way.
std::vector<Knot> strand(const Bed& bed, Vec3 place, const Strands& wanted, Dice& dice) {
    constexpr double over_edge_m = 7e-3;
    const double length_m = wanted.length_m * dice.between(0.55, 1.25);
    const bool flies = dice.roll() < 0.06;
    const double rise_m = wanted.loose_m * (flies ? dice.between(2.0, 4.0) : dice.roll());
    const double stray = wanted.stray * (flies ? 2.5 : 1.0) * dice.between(-1.0, 1.0);
    const double beyond_m = over_edge_m * dice.between(0.1, 1.0);
    std::vector<Knot> knots;
    // It begins a little before the seed: at an edge where hair starts that is on the skin.
    const std::optional<Place> seed = bed.hair.at(place);
    if (!seed) return knots;
    place -= seed->along * dice.between(0.0, 5e-3);
    std::optional<Place> here = bed.lay_down(place, 0.1e-3);
    for (int k = 0; k <= wanted.steps && here; ++k) {
        const double t = double(k) / wanted.steps;
        const Vec3 across = glm::cross(here->normal, here->along);
        const Vec3 along = glm::normalize(here->along + stray * (0.5 + t) * across);
        knots.push_back({place, here->normal, along});
        place += along * (length_m / wanted.steps);
        std::optional<Place> next = bed.lay_down(place, 0.3e-3 + rise_m * t * t);
        if (next && glm::dot(next->normal, here->normal) < 0.75) next.reset();
        if (!next && k > 0) {
            const Knot last = knots.back();
            knots.push_back({last.place_m + last.along * beyond_m, last.normal, last.along});
        }
        here = next;
    }
    return knots;
}

/// A spiral that stands off the mass.
std::vector<Knot> curl(const Bed& bed, const Vec3& place, const Strands& wanted, Dice& dice) {
    const std::optional<Place> here = bed.hair.at(place);
    if (!here) return {};
    const double length_m = wanted.length_m * dice.between(0.5, 1.3);
    const double radius_m = dice.between(1.8e-3, 4.0e-3), turns = dice.between(0.9, 1.6);
    const double start = dice.between(0.0, 2.0 * pi);
    const Vec3 any(dice.between(-1, 1), dice.between(-1, 1), dice.between(-1, 1));
    const Vec3 axis = glm::normalize(0.5 * here->normal + 0.9 * any - Vec3(0, 0.3, 0));
    const Vec3 side = glm::normalize(glm::cross(axis, Vec3(0.31, 0.77, 0.56)));
    const Vec3 other = glm::cross(axis, side);
    const auto at = [&](double t) {
        const double angle = start + 2.0 * pi * turns * t;
        const double wide = radius_m * smooth_step(-0.1, 0.3, t);
        return place - 1.5e-3 * here->normal + axis * (length_m * t) +
               wide * (std::cos(angle) * side + std::sin(angle) * other);
    };
    std::vector<Knot> knots;
    for (int k = 0; k <= wanted.steps; ++k) {
        const double t = double(k) / wanted.steps;
        knots.push_back({at(t), here->normal, glm::normalize(at(t + 0.01) - at(t - 0.01))});
    }
    return knots;
}

/// Up to where the strand would hang into the face.
void keep_off_face(std::vector<Knot>& knots, double brow_m) {
    const auto in_face = [&](const Knot& knot) {
        const Vec3& q = knot.place_m;
        return q.z > 0.052 && std::abs(q.x) < 0.056 && q.y < brow_m;
    };
    knots.erase(std::find_if(knots.begin(), knots.end(), in_face), knots.end());
}

/// A band that narrows to its end, turned about its run by a random roll: some are always seen
/// broad.
Mesh band(const std::vector<Knot>& knots, const Vec3& colour, double width_m, Dice& dice) {
    Mesh mesh;
    const double roll = dice.between(0.0, pi), tone = dice.between(0.70, 1.30);
    const double lean = dice.between(-0.35, 0.35);
    for (std::size_t k = 0; k < knots.size(); ++k) {
        const Knot& knot = knots[k];
        const double t = double(k) / double(knots.size() - 1);
        const Vec3 across = glm::normalize(glm::cross(knot.normal, knot.along));
        const Vec3 outward = glm::cross(knot.along, across);
        const Vec3 side = std::cos(roll) * across + std::sin(roll) * outward;
        const double half_m = 0.5 * width_m * std::sqrt(1.0 - t * t) + 0.02e-3;
        for (const double s : {-half_m, half_m}) {
            mesh.positions_m.emplace_back(knot.place_m + s * side);
            mesh.normals.emplace_back(glm::normalize(outward + lean * across));
            mesh.tangents.emplace_back(knot.along);
            mesh.colours.emplace_back(colour * tone * mix(0.85, 1.15, t));
        }
        if (k == 0) continue;
        const auto a = static_cast<glm::uint>(2 * (k - 1));
        mesh.triangles.emplace_back(a, a + 1, a + 3);
        mesh.triangles.emplace_back(a, a + 3, a + 2);
    }
    return mesh;
}

} // namespace

Mesh wisps_of(const SubjectForm& form, HairStyle style) {
    Mesh mesh;
    if (!form.hair || form.hair->triangles.empty() || form.hair->tangents.empty()) return mesh;
    const Mesh& hair = *form.hair;
    const Bed bed = bed_of(form);
    const std::vector<double> sums = seed_sums(hair);
    const Strands wanted = strands_of(style);
    std::vector<Mesh> bands(static_cast<std::size_t>(wanted.count));
    tbb::parallel_for(std::size_t{0}, bands.size(), [&](std::size_t i) {
        Dice dice(static_cast<std::uint32_t>(i));
        const Vec3 seed = seed_at(hair, sums, dice);
        std::vector<Knot> knots = style == HairStyle::curly ? curl(bed, seed, wanted, dice)
                                                            : strand(bed, seed, wanted, dice);
        keep_off_face(knots, style == HairStyle::curly ? 0.086 : 0.066);
        const std::optional<Place> root = bed.hair.at(seed);
        if (knots.size() < 2 || !root) return;
        bands[i] = band(knots, root->colour, wanted.width_m * dice.between(0.6, 1.3), dice);
    });
    for (const Mesh& one : bands) append(mesh, one);
    mesh.roughness.assign(mesh.positions_m.size(), 0.34F);
    mesh.regions.assign(mesh.positions_m.size(), static_cast<std::uint8_t>(Region::hair));
    return mesh;
}

} // namespace keystead
