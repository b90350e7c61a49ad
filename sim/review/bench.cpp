#include "sim/review/bench.h"

#include "sim/light/exposure.h"
#include "sim/light/stops.h"
#include "sim/meter/meter_point.h"

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
    return light_exposure_lx_s(bench.studio, light, probe, points) +
           off_panels_lx_s(bench.studio, bench.panels, light, probe);
}

double total_exposure_lx_s(const Bench& bench, const Probe& probe, int points) {
    double sum = room_light_lx_s(bench.studio.set);
    for (std::size_t i = 0; i < bench.studio.emitters.size(); ++i)
        sum += exposure_lx_s(bench, i, probe, points);
    return sum;
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

double tone_of(const Bench& bench, const SurfacePoint& point) {
    // Lambertian: luminance·pi = reflectance · exposure.
    return point.reflectance * total_exposure_lx_s(bench, probe_on(point)) /
           bench.camera_exposure_lx_s;
}

double tone_of_hit(const Bench& bench, const RayHit& hit, const Vec3& direction) {
    const ScenePart& part = bench.studio.scene.parts[hit.mesh];
    // A lit face in the picture is white, whatever it is made of.
    if (part.emitting_light >= 0 &&
        bench.studio.emitters[static_cast<std::size_t>(part.emitting_light)].power > 0.0)
        return 1.0;
    return tone_of(bench, surface_at(bench.studio, hit, bench.sight.frame.eye_m, direction));
}

bool is_background(const Bench& bench, const RayHit& hit) {
    if (hit.mesh == ray_miss) return false;
    const bool hung = bench.studio.set.background.kind != BackgroundKind::none;
    const std::uint32_t wanted = hung ? ray_mask::background : ray_mask::room;
    return (bench.studio.scene.parts[hit.mesh].mask & wanted) != 0;
}

} // namespace keystead
