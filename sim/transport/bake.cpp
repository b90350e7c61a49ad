#include "sim/transport/bake.h"

#include "sim/transport/bake_bounces.h"
#include "sim/transport/bake_memory.h"
#include "sim/transport/bake_paths.h"

#include <algorithm>
#include <utility>

namespace keystead {

namespace {

bool usable(const BakeState* old, const BakeState& now) {
    return old != nullptr && old->paths == now.paths &&
           std::equal(std::begin(old->spacings_m), std::end(old->spacings_m),
                      std::begin(now.spacings_m));
}

/// Left as they come: whoever traces a packet is the first to touch it.
void make_room(BakeState& state) {
    for (BakePart& part : state.parts) {
        const std::size_t packets = part.layout->blocks() * state.paths;
        part.landings = std::make_unique_for_overwrite<light_path::Landings[]>(packets);
        part.direct = std::make_unique_for_overwrite<float[]>(packets * state.emitters.size() *
                                                              lanes::lane_count);
    }
}

} // namespace

IndirectLight bake_indirect(const Scene& scene, const RayScene& rays,
                            std::span<const Emitter> emitters, const BakeOptions& options,
                            BakeMemory* memory) {
    BakeState state;
    const auto wanted = static_cast<std::size_t>(std::max(1, options.paths));
    state.paths = (wanted + path_set - 1) / path_set * path_set;
    state.spacings_m[0] = options.subject_spacing_m;
    state.spacings_m[1] = options.gear_spacing_m;
    state.spacings_m[2] = options.room_spacing_m;
    std::vector<light_path::Source> sources;
    for (const Emitter& emitter : emitters) {
        state.emitters.push_back(geometry_key(emitter));
        sources.push_back(light_path::source_of(emitter));
    }
    IndirectLight stopped;
    stopped.emitters = emitters.size();
    stopped.parts.resize(scene.parts.size());
    if (emitters.empty() || (options.stop && options.stop())) return stopped;
    const BakeState* old =
        memory != nullptr && usable(memory->state.get(), state) ? memory->state.get() : nullptr;
    const light_path::World world = light_path::world_of(scene, rays);
    lay_out(scene, options, old, state);
    const Continuation going = continuation_of(old, state);
    make_room(state);
    BakeWork work{world, sources, options, going, state};
    std::size_t done = 0;
    if (old == nullptr && options.show && state.paths > path_set) {
        trace_paths(work, 0, path_set);
        if (work.stopped) return stopped;
        options.show(bounced_light(state, path_set, options.bounces));
        done = path_set;
    }
    trace_paths(work, done, state.paths);
    if (work.stopped) return stopped;
    IndirectLight light = bounced_light(state, state.paths, options.bounces);
    light.complete = true;
    if (memory != nullptr) {
        memory->traced = work.traced;
        memory->state = std::make_shared<const BakeState>(std::move(state));
    }
    return light;
}

} // namespace keystead
