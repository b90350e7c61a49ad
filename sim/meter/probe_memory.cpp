#include "sim/meter/probe_memory.h"

#include "sim/shape/content_key.h"

#include <tbb/parallel_for.h>
#include <utility>
#include <vector>

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
    ahead_.clear();
    // Another sitter, or one that moved, is asked in other places.
    if (std::exchange(subject_key_, studio.subject_key) == studio.subject_key) follow_ahead(studio);
}

/// Readings come one after another, each a small job; the last review's are most likely asked for
/// again, so all threads take to them at once.
void ProbeMemory::follow_ahead(const Studio& studio) {
    std::vector<std::pair<std::uint64_t, const Followed*>> last;
    for (const auto& [key, followed] : paths_before_) last.emplace_back(key, &followed);
    std::vector<Followed> now(last.size());
    tbb::parallel_for(std::size_t{0}, last.size(), [&](std::size_t i) {
        const Probe& probe = last[i].second->probe;
        now[i] = {probe,
                  trace_probe(studio, probe, {}, keys_.lights, &last[i].second->paths, changed_)};
    });
    for (std::size_t i = 0; i < last.size(); ++i) ahead_.emplace(last[i].first, std::move(now[i]));
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
    {
        const std::scoped_lock lock(asking_);
        if (auto ahead = ahead_.extract(key); !ahead.empty()) paths_now_.insert(std::move(ahead));
        if (const auto now = paths_now_.find(key); now != paths_now_.end())
            return light_along(now->second.paths);
    }
    const auto before = paths_before_.find(key);
    Followed followed{probe,
                      trace_probe(studio, probe, {}, keys_.lights,
                                  before != paths_before_.end() ? &before->second.paths : nullptr,
                                  changed_)};
    const std::scoped_lock lock(asking_);
    return light_along(paths_now_.try_emplace(key, std::move(followed)).first->second.paths);
}

const std::vector<double>&
ProbeMemory::values(std::uint64_t key, const std::function<std::vector<double>()>& compute) {
    {
        const std::scoped_lock lock(asking_);
        if (const auto found = now_.find(key); found != now_.end()) return found->second;
        if (auto old = before_.extract(key); !old.empty())
            return now_.insert(std::move(old)).position->second;
    }
    // Of two threads that both compute it one's is kept: they are the same.
    std::vector<double> fresh = compute();
    const std::scoped_lock lock(asking_);
    return now_.try_emplace(key, std::move(fresh)).first->second;
}

void ProbeMemory::keep(std::uint64_t key) {
    const std::scoped_lock lock(asking_);
    if (auto old = before_.extract(key); !old.empty()) now_.insert(std::move(old));
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
