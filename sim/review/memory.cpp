#include "sim/review/memory.h"

namespace keystead {

const FaceChart& face_chart_of(const Studio& studio, ReviewMemory& memory) {
    if (memory.chart == nullptr || memory.form_key != studio.form_key) {
        memory.form_key = studio.form_key;
        memory.chart = make_face_chart(*studio.form);
        ++memory.computed;
    }
    return *memory.chart;
}

const CombinedPattern& pattern_of(const Studio& studio, ReviewMemory& memory) {
    const std::uint64_t key = pattern_key(studio);
    if (!memory.pattern || memory.pattern_key != key) {
        memory.pattern = read_combined_pattern(
            face_chart_of(studio, memory), studio.emitters, studio.subject->head_axes,
            studio.subject->head_origin_m, studio.set.camera.shutter_s);
        memory.pattern_key = key;
        ++memory.computed;
    }
    return *memory.pattern;
}

std::optional<PatternHold> hold_of(const Studio& studio, std::size_t light, bool compute,
                                   ReviewMemory& memory) {
    const std::uint64_t key = hold_key(studio, light);
    if (memory.hold && memory.hold_key == key) return memory.hold;
    if (!compute) return {};
    const Subject& subject = studio.set.subject;
    memory.hold =
        pattern_hold(face_chart_of(studio, memory), studio.emitters[light], subject.head_turn_deg,
                     subject.head_nod_deg, subject.head_roll_deg, studio.subject->head_origin_m);
    memory.hold_key = key;
    ++memory.computed;
    return memory.hold;
}

std::shared_ptr<const Sight> sight_of(const Studio& studio, ReviewMemory& memory) {
    const std::uint64_t key = sight_key(studio);
    if (!memory.sight || memory.sight_key != key) {
        memory.sight = std::make_shared<const Sight>(look(studio));
        memory.sight_key = key;
        ++memory.computed;
    }
    return memory.sight;
}

} // namespace keystead
