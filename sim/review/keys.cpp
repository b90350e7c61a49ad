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
    key = mix(key, emitter.exitance);
    key = mix(key, emitter.area_m2);
    for (const ScenePart& part : studio.scene.parts)
        if (part.casts) key = mix(key, part.key);
    return key;
}

} // namespace keystead
