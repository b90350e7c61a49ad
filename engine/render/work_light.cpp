#include "engine/render/work_light.h"

#include "engine/render/filler.h"
#include "sim/light/meter.h"

#include <algorithm>
#include <cmath>

namespace keystead {

Emitter make_work_light(const Room& room) {
    Emitter light;
    light.light = "work light";
    light.shape = ModifierShape::rectangle;
    light.width_m = std::min(2.2, 0.5 * room.width_m);
    light.height_m = std::min(3.2, 0.5 * room.depth_m);
    light.centre_m = Vec3(0.5 * room.width_m - room.left_of_subject_m, room.ceiling_m - 0.02,
                          0.5 * room.depth_m - room.behind_subject_m);
    light.axes = Mat3(Vec3(1, 0, 0), Vec3(0, 0, 1), Vec3(0, -1, 0));
    light.area_m2 = light.width_m * light.height_m;
    light.exitance = 1.0;
    light.flash = false;
    return light;
}

double work_light_factor(const Emitter& light) {
    Probe probe;
    probe.position_m = Vec3(light.centre_m.x, 1.2, light.centre_m.z);
    probe.facing = Vec3(0, 1, 0);
    return std::max(1e-3, exposure_at(light, probe, nullptr));
}

glm::vec3 work_light_weight(const Emitter& light, double exposure, int samples) {
    const double grey_irradiance = pi / exposure;
    const double level =
        grey_irradiance * std::exp2(-work_light_stops_below) / work_light_factor(light);
    return glm::vec3(static_cast<float>(level / std::max(1, samples)));
}

IndirectLight bake_studio(const Studio& studio, const BakeOptions& options, BakeMemory* memory) {
    std::vector<Emitter> emitters = studio.emitters;
    emitters.push_back(make_work_light(studio.set.room));
    return bake_indirect(studio.scene, *studio.rays, emitters, options, memory);
}

} // namespace keystead
