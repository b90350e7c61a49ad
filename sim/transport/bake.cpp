#include "sim/transport/bake.h"

#include "sim/base/ggx.h"
#include "sim/light/measured.h"
#include "sim/light/panel_light.h"
#include "sim/transport/bake_points.h"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <tbb/parallel_for.h>

namespace keystead {

namespace {

constexpr double start_m = 5e-4; // past the surface that a ray leaves
constexpr double far_m = 100.0;
constexpr double buried_m = 0.004; // skin under cloth has something this near all round

/// SplitMix64 (Steele, Lea and Flood, 2014): small, the same everywhere; its seeds are mixed first,
/// as neighbouring ones would run alike.
class Random {
public:
    explicit Random(std::uint64_t number)
        : state_(number) {
        state_ = next();
    }
    double unit() { return (static_cast<double>(next() >> 11U) + 0.5) / 9007199254740992.0; }

private:
    std::uint64_t next() {
        std::uint64_t z = state_ += 0x9E3779B97F4A7C15ULL;
        z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9ULL;
        z = (z ^ (z >> 27U)) * 0x94D049BB133111EBULL;
        return z ^ (z >> 31U);
    }
    std::uint64_t state_;
};

double radical_inverse(std::uint32_t i) {
    double sum = 0.0, place = 0.5;
    for (; i != 0; i >>= 1U, place *= 0.5)
        if ((i & 1U) != 0) sum += place;
    return sum;
}

Vec3 cosine_direction(const Vec3& normal, double u, double v) {
    const Vec3 reference = std::abs(normal.y) > 0.9 ? Vec3(1, 0, 0) : Vec3(0, 1, 0);
    const Vec3 across = glm::normalize(glm::cross(reference, normal));
    const Vec3 along = glm::cross(normal, across);
    const double r = std::sqrt(u), turn = 2.0 * pi * v;
    return r * std::cos(turn) * across + r * std::sin(turn) * along +
           std::sqrt(std::max(0.0, 1.0 - u)) * normal;
}

struct Hit {
    Vec3 position_m{0.0}, normal{0.0};
    Vec3 to_eye{0.0}; ///< back along the path
    Vec3 albedo{0.0};
    double transmission = 0.0; ///< diffused through
    double roughness = 1.0;
    bool metal = false;
    double distance_m = 0.0;
};

struct World {
    const Scene& scene;
    const RayScene& rays;
    std::vector<Emitter> emitters; ///< with an exitance of 1
};

Vec3 albedo_at(const ScenePart& part, const RayHit& hit) {
    const Mesh& mesh = *part.mesh;
    if (mesh.colours.empty()) return Vec3(part.material.albedo);
    const glm::uvec3& t = mesh.triangles[hit.triangle];
    return (1.0 - hit.u - hit.v) * Vec3(mesh.colours[t.x]) + hit.u * Vec3(mesh.colours[t.y]) +
           hit.v * Vec3(mesh.colours[t.z]);
}

bool next_hit(const World& world, const Vec3& from_m, const Vec3& direction, Hit& hit) {
    RayHit found;
    if (!world.rays.first_hit(from_m, direction, start_m, far_m, ray_mask::all, found))
        return false;
    const ScenePart& part = world.scene.parts[found.mesh];
    hit.distance_m = found.distance_m;
    hit.position_m = from_m + found.distance_m * direction;
    const Vec3& n = found.geometric_normal;
    hit.normal = glm::dot(n, direction) > 0.0 ? -n : n;
    hit.to_eye = -direction;
    hit.albedo = albedo_at(part, found);
    hit.transmission = static_cast<double>(part.material.transmission);
    hit.roughness = static_cast<double>(part.material.roughness);
    // Only silver panels send enough light on for the shape of their lobe to matter.
    hit.metal = part.material.metal && (part.mask & ray_mask::panel) != 0;
    return true;
}

/// A scrim is crossed as often as its share of what leaves it: the path goes on from the far side.
void choose_side(Hit& hit, Random& random) {
    if (hit.transmission <= 0.0) return;
    const double through = hit.transmission;
    const double back = glm::dot(hit.albedo, Vec3(0.2126, 0.7152, 0.0722));
    const double chance = through / (through + back);
    if (random.unit() >= chance) {
        hit.albedo /= 1.0 - chance;
        return;
    }
    hit.position_m -= (cloth_thickness_m + start_m) * hit.normal;
    hit.normal = -hit.normal;
    hit.albedo = Vec3(through / chance);
    hit.metal = false;
}

/// How much more than a matt surface of its reflectance a silver one sends on from that direction.
double lobe(const Hit& hit, const Vec3& to_light) {
    return hit.metal ? pi * ggx_metal(1.0, hit.roughness, hit.normal, to_light, hit.to_eye) : 1.0;
}

/// Radiance of an emitter's brightest place and direction over that of a matt face, at most.
double brightest(const Emitter& emitter) {
    // A deflector's bright edge is at most three times the mean.
    const double place = 1.0 + std::abs(emitter.hot_spot) + (emitter.deflector > 0.0 ? 3.0 : 0.0);
    const double gain = emitter.measured != nullptr ? 4.0 * pi * emitter.measured->peak_per_lumen_sr
                                                    : emitter.beam.gain;
    return place * gain;
}

/// Irradiance at a hit from one point of an emitter. No surface can get more than the exitance of a
/// face that fills its sky, so a sample that claims more is cut to that (with the hot-spot's share
/// and what the beam gathers).
double direct_at(const World& world, const Emitter& emitter, const Hit& hit, double u, double v) {
    const EmitterPoint point = emitter_point(emitter, u, v);
    const Vec3 toward = point.position_m - hit.position_m;
    const double d2 = glm::dot(toward, toward);
    const Vec3 direction = toward / std::sqrt(d2);
    const double cosine = glm::dot(hit.normal, direction);
    const double leaving = glm::dot(point.normal, -direction);
    if (cosine <= 0.0 || leaving <= 0.0) return 0.0;
    const double sent = radiance(emitter, point, -direction);
    if (sent <= 0.0) return 0.0;
    constexpr std::uint32_t blockers = ray_mask::casters | ray_mask::background;
    if (world.rays.blocked(hit.position_m + start_m * hit.normal, point.position_m, blockers))
        return 0.0;
    return lobe(hit, direction) *
           std::min(sent * cosine * leaving * point.area_m2 / d2, brightest(emitter));
}

/// One path from a point; adds what each emitter sends along it to `sums`. Returns the distance of
/// its first hit.
double add_path(const World& world, const BakePoint& from, int bounces, const Vec2& first,
                Random& random, std::vector<Vec3>& sums) {
    Vec3 position(from.position_m), normal(from.normal);
    Vec3 share(1.0);
    double first_distance = far_m;
    for (int bounce = 0; bounce < bounces; ++bounce) {
        const double u = bounce == 0 ? first.x : random.unit();
        const double v = bounce == 0 ? first.y : random.unit();
        Hit hit;
        if (!next_hit(world, position, cosine_direction(normal, u, v), hit)) break;
        if (bounce == 0) first_distance = hit.distance_m;
        choose_side(hit, random);
        share *= hit.albedo;
        // Later hits matter little: there one light stands for all.
        const std::size_t count = world.emitters.size();
        const bool all = bounce < 2;
        const std::size_t begin =
            all ? 0 : std::min(count - 1, static_cast<std::size_t>(random.unit() * double(count)));
        for (std::size_t e = begin; e < (all ? count : begin + 1); ++e) {
            const double pu = random.unit(), pv = random.unit();
            const double direct = direct_at(world, world.emitters[e], hit, pu, pv);
            if (direct > 0.0) sums[e] += share * direct * (all ? 1.0 : double(count));
        }
        position = hit.position_m;
        normal = hit.normal;
    }
    return first_distance;
}

struct PointResult {
    std::vector<Vec3> irradiance; ///< one an emitter
    bool buried = false;
};

PointResult irradiance_at(const World& world, const BakePoint& point, std::uint64_t number,
                          const BakeOptions& options) {
    PointResult result{std::vector<Vec3>(world.emitters.size(), Vec3(0.0)), false};
    Random random(number);
    const Vec2 turn(random.unit(), random.unit());
    int near = 0;
    for (int i = 0; i < options.paths; ++i) {
        const Vec2 first(std::fmod((i + 0.5) / options.paths + turn.x, 1.0),
                         std::fmod(radical_inverse(static_cast<std::uint32_t>(i)) + turn.y, 1.0));
        const double distance =
            add_path(world, point, options.bounces, first, random, result.irradiance);
        if (distance < buried_m) ++near;
    }
    for (Vec3& sum : result.irradiance) sum /= options.paths;
    result.buried = near > options.paths * 6 / 10;
    return result;
}

double spacing_of(const ScenePart& part, const BakeOptions& options) {
    if ((part.mask & ray_mask::subject) != 0) return options.subject_spacing_m;
    if ((part.mask & (ray_mask::room | ray_mask::background | ray_mask::panel)) != 0)
        return options.room_spacing_m;
    return options.gear_spacing_m;
}

std::vector<glm::vec3> shared_out(const Mesh& mesh, const std::vector<BakePoint>& points,
                                  const std::vector<PointResult>& results, double spacing_m,
                                  std::size_t emitters) {
    std::vector<char> usable;
    for (const PointResult& result : results) usable.push_back(result.buried ? 0 : 1);
    const auto shares = shares_of_vertices(mesh, points, usable, spacing_m);
    std::vector<glm::vec3> values(mesh.positions_m.size() * emitters, glm::vec3(0.0F));
    for (std::size_t v = 0; v < shares.size(); ++v)
        for (const BakeShare& share : shares[v])
            for (std::size_t e = 0; e < emitters; ++e)
                values[v * emitters + e] +=
                    share.share * glm::vec3(results[share.point].irradiance[e]);
    return values;
}

} // namespace

IndirectLight bake_indirect(const Scene& scene, const RayScene& rays,
                            std::span<const Emitter> emitters, const BakeOptions& options) {
    World world{scene, rays, {emitters.begin(), emitters.end()}};
    for (Emitter& emitter : world.emitters) emitter.exitance = 1.0;
    IndirectLight light;
    light.emitters = emitters.size();
    light.parts.resize(scene.parts.size());
    if (emitters.empty()) return light;
    std::uint64_t number = 0;
    for (std::size_t p = 0; p < scene.parts.size(); ++p) {
        const ScenePart& part = scene.parts[p];
        const double spacing_m = spacing_of(part, options);
        const std::vector<BakePoint> points = spread_bake_points(*part.mesh, spacing_m);
        std::vector<PointResult> results(points.size());
        std::atomic<bool> stopped{false};
        tbb::parallel_for(std::size_t{0}, points.size(), [&](std::size_t i) {
            if (stopped || (options.stop && i % 64 == 0 && options.stop())) {
                stopped = true;
                return;
            }
            results[i] = irradiance_at(world, points[i], number + i, options);
        });
        if (stopped) return light;
        number += points.size();
        light.parts[p] = shared_out(*part.mesh, points, results, spacing_m, light.emitters);
    }
    light.complete = true;
    return light;
}

} // namespace keystead
