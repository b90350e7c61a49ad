#include "sim/meter/bounce.h"

#include "sim/base/frames.h"
#include "sim/transport/light_path.h"

#include <algorithm>
#include <cmath>
#include <tbb/parallel_for.h>

namespace keystead {

namespace {

using namespace light_path;

double luminance(const Vec3& colour) {
    return glm::dot(colour, Vec3(0.2126, 0.7152, 0.0722));
}

/// A direction that the receptor sees, and the irradiance on it for a radiance of 1 from there over
/// how often that direction is taken.
struct Look {
    Vec3 direction{0.0};
    double weight = 0.0;
};

/// Flat: as often as the cosine, ∫ cosθ dω = pi. Dome: (1+cosθ)/2 over the whole sphere, whose
/// integral is 2 pi: with c = cosθ the share of directions below c is ((1+c)/2)².
Look look_from(const Probe& probe, const Vec2& at) {
    if (probe.receptor == Receptor::flat) return {cosine_direction(probe.facing, at.x, at.y), pi};
    const double c = 2.0 * std::sqrt(at.x) - 1.0;
    const double s = std::sqrt(std::max(0.0, 1.0 - c * c)), turn = 2.0 * pi * at.y;
    const Mat3 axes = upright_frame(probe.facing);
    const Vec3 direction = axes * Vec3(s * std::cos(turn), s * std::sin(turn), c);
    return {direction, 2.0 * pi};
}

/// Adds what each light sends along one path, radiance.
void follow(const World& world, const Vec3& from_m, const Vec3& direction, int bounces,
            Random& random, std::vector<double>& sums) {
    Vec3 position = from_m, way = direction;
    double share = 1.0;
    for (int bounce = 0; bounce < bounces; ++bounce) {
        Hit hit;
        if (!next_hit(world, position, way, hit)) return;
        const bool panel = (world.scene.parts[hit.part].mask & ray_mask::panel) != 0;
        choose_side(hit, random);
        share *= luminance(hit.albedo);
        // Later hits matter little: there one light stands for all.
        const std::size_t count = world.emitters.size();
        const bool all = bounce == 0;
        const std::size_t begin =
            all ? 0 : std::min(count - 1, static_cast<std::size_t>(random.unit() * double(count)));
        for (std::size_t e = begin; e < (all ? count : begin + 1) && !(panel && bounce == 0); ++e) {
            const double u = random.unit(), v = random.unit();
            sums[e] += share / pi * direct_at(world, world.emitters[e], hit, u, v) *
                       (all ? 1.0 : double(count));
        }
        // Paths end as often as light does, so that a white room costs more than a black one.
        const double on = std::min(0.95, luminance(hit.albedo));
        if (random.unit() >= on) return;
        share /= on;
        position = hit.position_m;
        way = cosine_direction(hit.normal, random.unit(), random.unit());
    }
}

} // namespace

std::vector<double> bounce_at(const Studio& studio, const Probe& probe,
                              const BounceOptions& options) {
    const World world = world_of(studio.scene, *studio.rays, studio.emitters);
    std::vector<double> result(studio.emitters.size(), 0.0);
    if (result.empty()) return result;
    // Paths in runs, each with sums of its own: threads change nothing.
    constexpr int run = 16;
    const auto runs = static_cast<std::size_t>((options.paths + run - 1) / run);
    std::vector<std::vector<double>> sums(runs, result);
    tbb::parallel_for(std::size_t{0}, runs, [&](std::size_t r) {
        for (int i = static_cast<int>(r) * run;
             i < std::min(options.paths, (static_cast<int>(r) + 1) * run); ++i) {
            Random random(static_cast<std::uint64_t>(i));
            const Vec2 at((i + 0.5) / options.paths,
                          radical_inverse(static_cast<std::uint32_t>(i)) + 0.5 / options.paths);
            const Look look = look_from(probe, at);
            std::vector<double> path(result.size(), 0.0);
            follow(world, probe.position_m, look.direction, options.bounces, random, path);
            for (std::size_t e = 0; e < path.size(); ++e) sums[r][e] += look.weight * path[e];
        }
    });
    for (const std::vector<double>& part : sums)
        for (std::size_t e = 0; e < result.size(); ++e) result[e] += part[e] / options.paths;
    return result;
}

} // namespace keystead
