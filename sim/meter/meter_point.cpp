#include "sim/meter/meter_point.h"

#include "sim/base/frames.h"

#include <cmath>

namespace keystead {

namespace {

/// Direction of a vector; toward the camera's side of the room where it has no length.
Vec3 direction_or_ahead(const Vec3& way) {
    return glm::length(way) > 1e-6 ? glm::normalize(way) : Vec3(0, 0, 1);
}

} // namespace

std::optional<std::size_t> light_index(const Set& set, const std::string& id) {
    for (std::size_t i = 0; i < set.lights.size(); ++i)
        if (set.lights[i].id == id) return i;
    return {};
}

Vec3 way_to_light(const Studio& studio, std::size_t light, const Vec3& from_m) {
    return direction_or_ahead(studio.emitters[light].centre_m - from_m);
}

std::optional<Probe> probe_of(const Studio& studio, const MeterPoint& point) {
    Probe probe{point.position_m, direction_from({point.azimuth_deg, point.elevation_deg}),
                point.receptor == ReceptorKind::flat ? Receptor::flat : Receptor::dome,
                ray_mask::casters | ray_mask::background};
    if (point.toward.empty()) return probe;
    if (point.toward == "camera") {
        probe.facing = direction_or_ahead(studio.set.camera.position_m - point.position_m);
        return probe;
    }
    const std::optional<std::size_t> light = light_index(studio.set, point.toward);
    if (!light) return {};
    probe.facing = way_to_light(studio, *light, point.position_m);
    return probe;
}

Probe dome_at_face(const Studio& studio) {
    constexpr double ahead_m = 0.05;
    const Vec3& nose = studio.subject->landmarks.pronasale;
    const Vec3 way = direction_or_ahead(studio.set.camera.position_m - nose);
    return {nose + ahead_m * way, way, Receptor::dome, ray_mask::casters | ray_mask::background};
}

Probe flat_at_face(const Studio& studio, std::size_t light) {
    const Vec3& face = studio.subject->landmarks.face;
    return {face, way_to_light(studio, light, face), Receptor::flat,
            ray_mask::gear | ray_mask::panel};
}

Probe flat_to_shadow(const Studio& studio, std::size_t light) {
    constexpr double turned_deg = 60.0, ahead_m = 0.05;
    const Vec3& face = studio.subject->landmarks.face;
    const Mat3& axes = studio.subject->head_axes;
    const double side =
        glm::dot(studio.emitters[light].centre_m - face, axes[0]) > 0.0 ? -1.0 : 1.0;
    const Vec3 facing =
        std::cos(radians(turned_deg)) * axes[2] + side * std::sin(radians(turned_deg)) * axes[0];
    return {face + ahead_m * facing, facing, Receptor::flat,
            ray_mask::casters | ray_mask::background};
}

double counted_time_s(const Emitter& emitter, const Camera& camera) {
    return emitter.flash ? 1.0 : camera.shutter_s;
}

double light_exposure_lx_s(const Studio& studio, std::size_t light, const Probe& probe,
                           int points) {
    const Emitter& emitter = studio.emitters[light];
    if (emitter.power <= 0.0) return 0.0;
    return counted_time_s(emitter, studio.set.camera) *
           exposure_at(emitter, probe, studio.rays.get(), points);
}

double room_light_lx_s(const Set& set) {
    return set.room.ambient_lx * set.camera.shutter_s;
}

double f_number_on(const Set& set, Receptor receptor, double exposure_lx_s) {
    const double c_lx_s =
        receptor == Receptor::flat ? set.meter.flat_c_lx_s : set.meter.dome_c_lx_s;
    return f_number_of_exposure(exposure_lx_s, set.camera.iso, c_lx_s);
}

} // namespace keystead
