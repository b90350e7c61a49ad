#include "sim/review/memory.h"

#include "sim/portrait/read.h"

#include <tbb/parallel_for.h>

namespace keystead {

const FaceChart& face_chart_of(const Studio& studio, ReviewMemory& memory) {
    if (memory.chart == nullptr || memory.form_key != studio.form_key) {
        memory.form_key = studio.form_key;
        memory.chart = make_face_chart(*studio.form);
        ++memory.computed;
    }
    return *memory.chart;
}

CombinedPattern pattern_of(const Studio& studio, ReviewMemory& memory) {
    const FaceChart& chart = face_chart_of(studio, memory);
    std::vector<std::shared_ptr<const LightOnFace>> faces(studio.emitters.size());
    std::vector<std::size_t> stale;
    std::vector<ReviewMemory::Face*> places; ///< of the stale ones
    std::vector<std::uint64_t> keys;
    for (std::size_t i = 0; i < studio.emitters.size(); ++i) {
        ReviewMemory::Face& kept = memory.faces[studio.emitters[i].light];
        keys.push_back(face_key(studio, i, memory.probes.keys().shades));
        if (kept.light && kept.key == keys.back()) {
            faces[i] = kept.light;
        } else {
            stale.push_back(i);
            places.push_back(&kept);
        }
    }
    tbb::parallel_for(std::size_t{0}, stale.size(), [&](std::size_t n) {
        const std::size_t i = stale[n];
        const Emitter& emitter = studio.emitters[i];
        const FaceRoom room{studio.rays.get(), studio.subject->head_axes,
                            studio.subject->head_origin_m};
        ReviewMemory::Face& kept = *places[n];
        if (kept.open_key != open_face_key(studio, i) || !kept.open) {
            kept.open = read_light_on_face(chart, emitter, room.head_axes, room.head_origin_m);
            kept.open_key = open_face_key(studio, i);
        }
        faces[i] = kept.light = read_light_in_room(chart, emitter, room, kept.open);
        kept.key = keys[i];
    });
    memory.computed += static_cast<int>(stale.size());
    return combine_lights(chart, studio.emitters, faces, studio.set.camera.shutter_s);
}

std::optional<PatternHolds> holds_of(const Studio& studio, std::size_t light, bool compute,
                                     ReviewMemory& memory) {
    const std::uint64_t key = hold_key(studio, light);
    if (memory.holds && memory.hold_key == key) return memory.holds;
    if (!compute) return {};
    const Subject& subject = studio.set.subject;
    memory.holds =
        pattern_holds(face_chart_of(studio, memory), studio.emitters[light], subject.head_turn_deg,
                      subject.head_nod_deg, subject.head_roll_deg, studio.subject->head_origin_m);
    memory.hold_key = key;
    ++memory.computed;
    return memory.holds;
}

std::shared_ptr<const Sight> sight_of(const Studio& studio, ReviewMemory& memory) {
    const std::uint64_t key = sight_key(studio);
    if (!memory.sight || memory.sight_key != key) {
        memory.sight = std::make_shared<const Sight>(look(studio));
        memory.sight_key = key;
        memory.eye = {};
        memory.frame.reset();
        ++memory.computed;
    }
    return memory.sight;
}

} // namespace keystead
