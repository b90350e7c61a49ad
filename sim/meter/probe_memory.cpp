#include "sim/meter/probe_memory.h"

#include "sim/shape/content_key.h"

#include <utility>

namespace keystead {

ReadingKeys::ReadingKeys(const Studio& studio)
    : shades(studio) {
    for (std::size_t i = 0; i < studio.emitters.size(); ++i) {
        const Emitter& emitter = studio.emitters[i];
        lights.push_back(ContentKey()
                             .add(emitter.light)
                             .add(studio.light_keys[i])
                             .add(emitter.area_m2)
                             .add(emitter.centre_m)
                             .value());
        faces.push_back(extent_of(emitter));
    }
    ContentKey all;
    for (const std::uint64_t light : lights) all.add(light);
    for (const ScenePart& part : studio.scene.parts) all.add(part.key);
    everything = all.value();
}

void ProbeMemory::begin(const Studio& studio) {
    keys_ = ReadingKeys(studio);
    before_ = std::exchange(now_, {});
    paths_before_ = std::exchange(paths_now_, {});
    compare(studio.scene);
}

/// Parts that came or went are in the way of paths; what moved did both.
void ProbeMemory::compare(const Scene& scene) {
    changed_ = {};
    const auto old = std::exchange(parts_, {});
    for (const ScenePart& part : scene.parts) {
        if ((part.mask & ray_mask::all) == 0) continue;
        const auto known = old.find(part.key);
        const MeshBox box = known != old.end() ? known->second : box_of(*part.mesh);
        if (known == old.end()) changed_.add(box);
        parts_.emplace(part.key, box);
    }
    for (const auto& [key, box] : old)
        if (!parts_.contains(key)) changed_.add(box);
}

std::vector<double> ProbeMemory::bounce(const Studio& studio, const Probe& probe) {
    const std::uint64_t key = probe_key(probe);
    auto found = paths_now_.find(key);
    if (found == paths_now_.end()) {
        const auto before = paths_before_.find(key);
        found =
            paths_now_
                .emplace(key, trace_probe(studio, probe, {}, keys_.lights,
                                          before != paths_before_.end() ? &before->second : nullptr,
                                          changed_))
                .first;
    }
    return light_along(found->second);
}

const std::vector<double>&
ProbeMemory::values(std::uint64_t key, const std::function<std::vector<double>()>& compute) {
    const auto found = now_.find(key);
    if (found != now_.end()) return found->second;
    const auto old = before_.find(key);
    return now_.emplace(key, old != before_.end() ? old->second : compute()).first->second;
}

void ProbeMemory::keep(std::uint64_t key) {
    if (const auto old = before_.find(key); old != before_.end()) now_.insert(*old);
}

std::uint64_t ProbeMemory::direct_key(std::size_t light, const Probe& probe, int points) const {
    return ContentKey()
        .add("direct")
        .add(keys_.lights[light])
        .add(probe_key(probe))
        .add(points)
        .add(keys_.shades.between(keys_.faces[light], {probe.position_m, Vec3(0.0)}))
        .value();
}

std::uint64_t probe_key(const Probe& probe) {
    return ContentKey()
        .add(probe.position_m)
        .add(probe.facing)
        .add(static_cast<int>(probe.receptor))
        .add(static_cast<std::uint64_t>(probe.blockers))
        .value();
}

} // namespace keystead
