#include "sim/review/luminance.h"

#include "sim/light/exposure.h"
#include "sim/light/meter.h"
#include "sim/light/stops.h"

#include <algorithm>
#include <cmath>

namespace keystead {

double frame_exposure_lx_s(const Emitter& emitter, double exposure, double shutter_s) {
    return emitter.flash ? exposure : exposure * shutter_s;
}

double total_exposure_lx_s(const Studio& studio, const Vec3& position_m, const Vec3& facing,
                           std::uint32_t blockers, int points) {
    const Probe probe{position_m, facing, Receptor::flat, blockers};
    double total = 0.0;
    for (const Emitter& emitter : studio.emitters) {
        if (emitter.power <= 0.0) continue;
        total +=
            frame_exposure_lx_s(emitter, exposure_at(emitter, probe, studio.rays.get(), points),
                                studio.set.camera.shutter_s);
    }
    return total;
}

double camera_exposure_lx_s(const Camera& camera, const MeterSettings& meter) {
    const double f_number = exact_f_number(camera.f_number);
    return meter.flat_c_lx_s * f_number * f_number / camera.iso;
}

double stops_over_card(double reflectance, double exposure_lx_s, const Camera& camera,
                       const MeterSettings& meter) {
    constexpr double floor_stops = -12.0;
    const double relative =
        reflectance * exposure_lx_s / (0.18 * camera_exposure_lx_s(camera, meter));
    return relative > 0.0 ? std::max(floor_stops, std::log2(relative)) : floor_stops;
}

double luminous_albedo(const ScenePart& part, const RayHit& hit) {
    glm::vec3 albedo = part.material.albedo;
    if (!part.mesh->colours.empty()) {
        const glm::uvec3 corner = part.mesh->triangles[hit.triangle];
        const auto u = static_cast<float>(hit.u), v = static_cast<float>(hit.v);
        const std::vector<glm::vec3>& colours = part.mesh->colours;
        albedo = (1.0F - u - v) * colours[corner.x] + u * colours[corner.y] + v * colours[corner.z];
    }
    return 0.2126 * static_cast<double>(albedo.r) + 0.7152 * static_cast<double>(albedo.g) +
           0.0722 * static_cast<double>(albedo.b);
}

} // namespace keystead
