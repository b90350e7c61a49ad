#include "sim/review/bench.h"

#include "sim/light/exposure.h"
#include "sim/light/stops.h"
#include "sim/meter/meter_point.h"
#include "sim/review/gloss.h"
#include "sim/shape/content_key.h"

#include <algorithm>
#include <cmath>

namespace keystead {

Bench make_bench(const Studio& studio, const Sight& sight) {
    const Set& set = studio.set;
    Bench bench{studio, studio.subject->landmarks, sight};
    bench.iso = set.camera.iso;
    bench.flat_c_lx_s = set.meter.flat_c_lx_s;
    bench.dome_c_lx_s = set.meter.dome_c_lx_s;
    bench.camera_f_number = exact_f_number(set.camera.f_number);
    bench.camera_exposure_lx_s =
        exposure_of_f_number(bench.camera_f_number, bench.iso, bench.flat_c_lx_s);
    return bench;
}

double exposure_lx_s(const Bench& bench, std::size_t light, const Probe& probe, int points) {
    return direct_lx_s(bench.studio, bench.aids, light, probe, points) +
           off_panels_lx_s(bench.studio, bench.aids, light, probe);
}

namespace {

/// Of all lights, found there or nearby.
double bounce_lx_s(const Bench& bench, const Probe& probe, double shared_m) {
    // Over a sitter the ways that places face change from one to the next, and bounce hardly does.
    const double alike = shared_m <= sitter_shared_m ? 0.7 : 0.9;
    const auto found =
        std::find_if(bench.bounced->begin(), bench.bounced->end(), [&](const BouncePlace& place) {
            return glm::length(place.probe.position_m - probe.position_m) < shared_m &&
                   glm::dot(place.probe.facing, probe.facing) > alike;
        });
    if (found != bench.bounced->end()) return found->total_lx_s;
    double sum = 0.0;
    for (const double light : bounces_lx_s(bench.studio, bench.aids, probe)) sum += light;
    bench.bounced->push_back({probe, sum});
    return sum;
}

} // namespace

double total_exposure_lx_s(const Bench& bench, const Probe& probe, double shared_m, int points) {
    double sum = room_light_lx_s(bench.studio.set) + bounce_lx_s(bench, probe, shared_m);
    for (std::size_t i = 0; i < bench.studio.emitters.size(); ++i)
        sum += exposure_lx_s(bench, i, probe, points);
    return sum;
}

bool see(const Bench& bench, const Vec3& direction, std::uint32_t mask, RayHit& hit) {
    const std::uint64_t key =
        ContentKey().add(direction).add(static_cast<std::uint64_t>(mask)).value();
    const auto [place, is_new] = bench.eye->hits.try_emplace(key);
    if (is_new && !bench.studio.rays->first_hit(bench.sight.frame.eye_m, direction, sight_start_m,
                                                1e3, mask, place->second))
        place->second.mesh = ray_miss;
    hit = place->second;
    return hit.mesh != ray_miss;
}

bool hidden(const Bench& bench, const Vec3& point_m) {
    const auto [place, is_new] =
        bench.eye->hidden.try_emplace(ContentKey().add(point_m).value(), false);
    if (is_new)
        place->second =
            bench.studio.rays->blocked(bench.sight.frame.eye_m, point_m, ray_mask::all, 1e-3);
    return place->second;
}

Probe probe_on(const SurfacePoint& point) {
    // Off the surface, so that a ray does not meet the facet it starts from.
    constexpr double lift_m = 1e-3;
    return {point.position_m + lift_m * point.normal, point.normal, Receptor::flat,
            ray_mask::casters | ray_mask::background};
}

double flat_f_number(const Bench& bench, double exposure) {
    return f_number_of_exposure(exposure, bench.iso, bench.flat_c_lx_s);
}

std::optional<double> stops_from_key(const Bench& bench, double exposure) {
    if (bench.key_exposure_lx_s <= 0.0 || exposure <= 0.0) return {};
    return std::log2(exposure / bench.key_exposure_lx_s);
}

GivenLight direct_light(const Bench& bench, std::size_t light, const GlossyPoint& point,
                        const Probe& probe) {
    const Studio& studio = bench.studio;
    Emitter emitter = studio.emitters[light];
    const reflection::Surface& s = point.surface;
    const std::uint64_t key = ContentKey()
                                  .add("tone")
                                  .add(bench.aids.memory->direct_key(light, probe, edge_points))
                                  .add(point.to_eye)
                                  .add(s.albedo)
                                  .add(s.tangent)
                                  .add(s.roughness)
                                  .add(s.f0)
                                  .add(s.finish)
                                  .value();
    const double factor =
        emitter.power * emitter.exitance * counted_time_s(emitter, studio.set.camera);
    if (factor <= 0.0) {
        bench.aids.memory->keep(key); // it may be switched on again
        return {};
    }
    const std::vector<double>& full = bench.aids.memory->values(key, [&] {
        emitter.power = emitter.exitance = 1.0;
        const GivenLight one = light_on(emitter, probe, point, studio.rays.get(), edge_points);
        return std::vector<double>{one.given, one.mirrored};
    });
    return {factor * full[0], factor * full[1]};
}

SeenTone tone_of_hit(const Bench& bench, const RayHit& hit, const Vec3& direction) {
    const Studio& studio = bench.studio;
    const ScenePart& part = studio.scene.parts[hit.mesh];
    // A lit face in the picture is white, whatever it is made of.
    if (part.emitting_light >= 0 &&
        studio.emitters[static_cast<std::size_t>(part.emitting_light)].power > 0.0)
        return {1.0, 0.0};
    const double shared_m = (part.mask & ray_mask::subject) != 0 ? sitter_shared_m : room_shared_m;
    const SurfacePoint point = surface_at(studio, hit, bench.sight.frame.eye_m, direction);
    const GlossyPoint glossy = glossy_point(studio, hit, point, direction);
    const Probe probe = probe_on(point);
    // Lambertian: luminance·pi = reflectance · exposure. Of light that comes from all round, and of
    // what panels send, gloss has its share of an even surround.
    double even = room_light_lx_s(studio.set) + bounce_lx_s(bench, probe, shared_m);
    double direct = 0.0, mirrored = 0.0;
    for (std::size_t i = 0; i < studio.emitters.size(); ++i) {
        const GivenLight light = direct_light(bench, i, glossy, probe);
        direct += light.given;
        mirrored += light.mirrored;
        even += off_panels_lx_s(studio, bench.aids, i, probe);
    }
    const double matt = point.reflectance * (direct + even);
    const double gloss = mirrored + (even_share(glossy) - point.reflectance) * even;
    return {(matt + gloss) / bench.camera_exposure_lx_s, gloss / bench.camera_exposure_lx_s};
}

bool is_background(const Bench& bench, const RayHit& hit) {
    if (hit.mesh == ray_miss) return false;
    const bool hung = bench.studio.set.background.kind != BackgroundKind::none;
    const std::uint32_t wanted = hung ? ray_mask::background : ray_mask::room;
    return (bench.studio.scene.parts[hit.mesh].mask & wanted) != 0;
}

} // namespace keystead
