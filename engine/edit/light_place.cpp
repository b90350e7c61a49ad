#include "engine/edit/light_place.h"

#include "sim/set/json_text.h"
#include "sim/set/set_json.h"

#include <cmath>

namespace keystead {

namespace {

/// Tenths of millimetres and thousandths of degrees are enough for a document.
double tidied(double value, double steps) {
    return std::round(value * steps) / steps;
}
double place(double metres) {
    return tidied(metres, 1e4);
}
double angle(double degrees) {
    return tidied(degrees, 1e3);
}

void put(Batch& batch, const std::string& path, const Json& value) {
    batch.commands.emplace_back(SetValue{path, value.dump()});
}

} // namespace

void put_angle(Batch& batch, const std::string& path, double angle_deg) {
    put(batch, path, angle(angle_deg));
}

void put_place(Batch& batch, const Light& light) {
    const std::string path = "lights[" + light.id + "].";
    const Support& support = light.support;
    put(batch, path + "support.base.position_m",
        Json::array({place(support.base.position_m.x), place(support.base.position_m.y)}));
    put(batch, path + "support.base.turn_deg", angle(support.base.turn_deg));
    put(batch, path + "support.column.height_m", place(support.column.height_m));
    if (support.arm) put(batch, path + "support.arm.rise_deg", angle(support.arm->rise_deg));
    if (light.aim.kind == AimKind::landmark) return;
    Json document = light_to_json(light);
    put(batch, path + "aim", document["aim"]);
}

} // namespace keystead
