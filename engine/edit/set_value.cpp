#include "engine/edit/set_value.h"

#include "sim/set/json_text.h"

#include <cmath>

namespace keystead {

double tidy(double value) {
    return std::round(value * 1e4) / 1e4;
}

Command set_number(std::string path, double value) {
    return SetValue{std::move(path), Json(tidy(value)).dump()};
}

Command set_point(const std::string& path, const Vec3& p) {
    return SetValue{path, Json::array({tidy(p.x), tidy(p.y), tidy(p.z)}).dump()};
}

Command set_place(const std::string& path, const Vec2& p) {
    return SetValue{path, Json::array({tidy(p.x), tidy(p.y)}).dump()};
}

} // namespace keystead
