#include "sim/transport/path_lamp.h"

#include <cmath>

namespace keystead::path_lanes {

Lamp make_lamp(const Emitter& emitter, int light, double shutter_s) {
    Lamp lamp;
    lamp.face = lane_face(emitter);
    lamp.measured = emitter.measured;
    lamp.light = light;
    lamp.area_m2 = static_cast<float>(emitter.area_m2);
    const double half = 0.5 * std::hypot(emitter.width_m, emitter.height_m);
    lamp.reach_m = static_cast<float>(half + emitter.depth_m);
    const double time = emitter.flash ? 1.0 : shutter_s;
    lamp.exitance = glm::vec3(emitter.exitance * emitter.power * time * emitter.colour);
    return lamp;
}

} // namespace keystead::path_lanes
