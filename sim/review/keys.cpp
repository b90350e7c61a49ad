#include "sim/review/keys.h"

#include "sim/set/set_io.h"

#include <functional>
#include <string>

namespace keystead {

namespace {

std::uint64_t mix(std::uint64_t key, std::uint64_t value) {
    // Boost's combination rule, in 64 bits.
    return key ^ (value + 0x9E3779B97F4A7C15ULL + (key << 6U) + (key >> 2U));
}

std::uint64_t mix(std::uint64_t key, double value) {
    return mix(key, static_cast<std::uint64_t>(std::hash<double>{}(value)));
}

std::uint64_t mix(std::uint64_t key, const Vec3& value) {
    return mix(mix(mix(key, value.x), value.y), value.z);
}

} // namespace

std::uint64_t statics_key(const Studio& studio, std::size_t index) {
    // The whole light as text: cheap beside the statics, and no field can be forgotten.
    Set alone;
    alone.lights = {studio.set.lights[index]};
    alone.lights.front().head.power_stops_below = 0.0;
    alone.lights.front().on = true;
    alone.limits = studio.set.limits;
    std::uint64_t key = std::hash<std::string>{}(write_set(alone));
    key = mix(key, studio.supports[index].beam_direction);
    return mix(key, studio.supports[index].emitter_m);
}

std::uint64_t alone_key(const Studio& studio, std::size_t index) {
    const Emitter& emitter = studio.emitters[index];
    std::uint64_t key = mix(studio.light_keys[index], studio.subject_key);
    key = mix(key, emitter.area_m2);
    for (const ScenePart& part : studio.scene.parts)
        if (part.casts) key = mix(key, part.key);
    return key;
}

std::uint64_t open_face_key(const Studio& studio, std::size_t index) {
    return mix(studio.subject_key, studio.light_keys[index]);
}

std::uint64_t face_key(const Studio& studio, std::size_t index, const Shades& shades) {
    // Around the chart, wherever the head is turned to.
    const Extent head{studio.subject->landmarks.face, Vec3(0.16)};
    return mix(open_face_key(studio, index),
               shades.between(extent_of(studio.emitters[index]), head));
}

std::uint64_t hold_key(const Studio& studio, std::size_t index) {
    return mix(studio.subject_key, studio.light_keys[index]);
}

std::uint64_t sight_key(const Studio& studio) {
    const Camera& camera = studio.set.camera;
    std::uint64_t key = mix(mix(std::uint64_t{0}, camera.position_m), camera.aim_m);
    key = mix(mix(key, camera.focal_length_mm), camera.sensor_width_mm);
    key = mix(mix(key, camera.sensor_height_mm),
              camera.orientation == Orientation::upright ? 1.0 : 0.0);
    for (const ScenePart& part : studio.scene.parts) key = mix(key, part.key);
    return key;
}

} // namespace keystead
