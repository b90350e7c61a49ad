#include "sim/transport/reference_lamp.h"

#include "sim/light/face_meeting.h"

#include <algorithm>
#include <cmath>

namespace keystead::reference {

namespace {

bool is_flat(const Emitter& e) {
    return e.shape != ModifierShape::bare && e.shape != ModifierShape::umbrella;
}

LampView view_of(const Lamp& lamp, const EmitterPoint& point, const Vec3& from_m) {
    LampView seen;
    const Vec3 toward = point.position_m - from_m;
    const double d2 = std::max(glm::dot(toward, toward), 1e-12);
    const Vec3 direction = toward / std::sqrt(d2);
    const double leaving = -glm::dot(point.normal, direction);
    if (leaving <= 1e-6) return seen;
    seen.direction = glm::vec3(direction);
    seen.distance_m = static_cast<float>(std::sqrt(d2));
    seen.radiance = static_cast<float>(radiance(lamp.emitter, point, -direction));
    seen.density = static_cast<float>(d2 / (leaving * point.area_m2));
    return seen;
}

} // namespace

Lamp make_lamp(const Emitter& emitter, int light, double shutter_s) {
    Lamp lamp;
    lamp.emitter = emitter;
    lamp.emitter.exitance = 1.0;
    lamp.light = light;
    const double time = emitter.flash ? 1.0 : shutter_s;
    lamp.exitance = glm::vec3(emitter.exitance * emitter.power * time * emitter.colour);
    lamp.flux = glm::dot(lamp.exitance, glm::vec3(0.2126F, 0.7152F, 0.0722F)) *
                static_cast<float>(emitter.area_m2);
    const double half = 0.5 * std::hypot(emitter.width_m, emitter.height_m);
    lamp.reach_m = static_cast<float>(half + emitter.depth_m);
    lamp.one_sided = is_flat(emitter);
    if (lamp.one_sided && emitter.grid && emitter.grid->cell_depth_m > 0.0) {
        lamp.widest = static_cast<float>(std::sqrt(2.0) * emitter.grid->cell_width_m /
                                         emitter.grid->cell_depth_m);
        lamp.past_widest = 0.01F + static_cast<float>(emitter.grid->wall_reflection);
    }
    return lamp;
}

LampView sample_lamp(const Lamp& lamp, const glm::vec3& from_m, float u, float v) {
    return view_of(lamp,
                   emitter_point(lamp.emitter, static_cast<double>(u), static_cast<double>(v)),
                   Vec3(from_m));
}

LampView meet_lamp(const Lamp& lamp, const glm::vec3& from_m, const glm::vec3& direction) {
    const auto met = meet_face(lamp.emitter, Vec3(from_m), glm::normalize(Vec3(direction)));
    return met ? view_of(lamp, met->point, Vec3(from_m)) : LampView{};
}

float seen_lamp(const Lamp& lamp, const glm::vec3& place_m, const glm::vec3& to_eye) {
    const EmitterPoint point = face_point_at(lamp.emitter, Vec3(place_m));
    return static_cast<float>(radiance(lamp.emitter, point, glm::normalize(Vec3(to_eye))));
}

float guessed(const Lamp& lamp, const glm::vec3& at_m, const glm::vec3& normal) {
    const glm::vec3 centre(lamp.emitter.centre_m), beam(lamp.emitter.axes[2]);
    const glm::vec3 away = at_m - centre;
    const float d2 = glm::dot(away, away), reach = lamp.reach_m;
    const float facing = reach - glm::dot(away, normal);
    if (facing <= 0.0F) return 0.0F;
    const float along = glm::dot(away, beam);
    if (lamp.one_sided && along <= 0.0F) return 0.0F;
    float guess =
        lamp.flux * (0.1F + std::min(1.0F, facing / std::sqrt(d2))) / (d2 + reach * reach);
    if (lamp.widest < 1e8F) {
        const float beside = std::sqrt(std::max(0.0F, d2 - along * along)) - reach;
        if (beside > lamp.widest * along) guess *= lamp.past_widest;
    }
    return guess;
}

} // namespace keystead::reference
