#include "sim/light/meter.h"

#include "sim/light/receptor.h"

#include <algorithm>
#include <cmath>

namespace keystead {

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
    double sum = 0.0;
    for (const EmitterPoint& point : emitter_points(emitter, points)) {
        const double share = exposure_from(emitter, point, probe);
        if (share <= 0.0) continue;
        if (rays != nullptr && rays->blocked(probe.position_m, point.position_m, probe.blockers))
            continue;
        sum += share;
    }
    return sum * emitter.power;
}

double visible_fraction(const Emitter& emitter, const Vec3& point_m, const Vec3& normal,
                        const RayScene& rays, std::uint32_t blockers, int points) {
    const Probe probe{point_m, normal, Receptor::flat, blockers};
    Emitter unit = emitter;
    unit.exitance = 1.0; // what is seen does not depend on output
    double seen = 0.0, all = 0.0;
    for (const EmitterPoint& point : emitter_points(unit, points)) {
        const double share = exposure_from(unit, point, probe);
        if (share <= 0.0) continue;
        all += share;
        if (!rays.blocked(point_m, point.position_m, blockers)) seen += share;
    }
    return all > 0.0 ? seen / all : 0.0;
}

} // namespace keystead
