#include "sim/light/meter.h"

#include "sim/light/lamp_lanes.h"
#include "sim/light/receptor.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace keystead {

double sum_of_seen(std::span<const double> shares, std::span<const Segment> ways,
                   const RayScene* rays, std::uint32_t blockers) {
    std::vector<std::uint8_t> stopped(ways.size(), 0);
    if (rays != nullptr) rays->blocked_many(ways, blockers, stopped);
    double sum = 0.0;
    for (std::size_t i = 0; i < ways.size(); ++i)
        if (stopped[i] == 0) sum += shares[i];
    return sum;
}

double exposure_from(const Emitter& emitter, const EmitterPoint& point, const Probe& probe) {
    const Vec3 offset = probe.position_m - point.position_m;
    const double distance2 = std::max(glm::dot(offset, offset), 1e-12);
    const Vec3 direction = offset / std::sqrt(distance2);
    const double leaving = glm::dot(point.normal, direction);
    const double response = receptor_response(probe.receptor, -glm::dot(probe.facing, direction));
    if (leaving <= 0.0 || response <= 0.0) return 0.0;
    return radiance(emitter, point, direction) * leaving * response * point.area_m2 / distance2;
}

double exposure_at(const Emitter& emitter, const Probe& probe, const RayScene* rays, int points) {
    if (emitter.power <= 0.0) return 0.0;
    const std::vector<PointBlock> blocks = blocks_of(emitter_points(emitter, points));
    return emitter.power * seen_exposure(emitter, blocks, probe, rays);
}

double visible_fraction(const Emitter& emitter, const Vec3& point_m, const Vec3& normal,
                        const RayScene& rays, std::uint32_t blockers, int points) {
    const Probe probe{point_m, normal, Receptor::flat, blockers};
    Emitter unit = emitter;
    unit.exitance = unit.power = 1.0; // what is seen does not depend on output
    const double all = exposure_at(unit, probe, nullptr, points);
    return all > 0.0 ? exposure_at(unit, probe, &rays, points) / all : 0.0;
}

} // namespace keystead
