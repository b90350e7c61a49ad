#include "sim/review/passes.h"

#include <cmath>

namespace keystead {

namespace {

void describe_eyes(PortraitReview& review, const PatternReading& reading) {
    review.eyes = {{"left", 100.0 * reading.eye_visible[0]},
                   {"right", 100.0 * reading.eye_visible[1]}};
}

/// Emitters of the lights that are on; `indices` tells which light each came from.
std::vector<Emitter> burning(const Studio& studio, std::vector<std::size_t>& indices) {
    std::vector<Emitter> emitters;
    for (std::size_t i = 0; i < studio.emitters.size(); ++i)
        if (studio.emitters[i].power > 0.0) {
            emitters.push_back(studio.emitters[i]);
            indices.push_back(i);
        }
    return emitters;
}

} // namespace

PortraitReview review_portrait(const Studio& studio, int key, const ReviewMemory& memory,
                               const ReviewOptions& options) {
    PortraitReview review;
    if (key < 0) {
        review.note = "No light that is on reaches the face.";
        return review;
    }
    const auto index = static_cast<std::size_t>(key);
    const PosedSubject& subject = *studio.subject;
    review.key = studio.set.lights[index].id;
    review.side =
        lit_side(studio.emitters[index].centre_m - subject.landmarks.face,
                 studio.set.camera.position_m - subject.landmarks.face, subject.head_axes);
    const auto kept = memory.alone.find(review.key);
    if (kept == memory.alone.end() || !kept->second.pattern) return review;
    const PatternReading& reading = *kept->second.pattern;
    review.pattern = reading.pattern;
    review.note = reading.note;
    review.face_angles = reading.face_angles;
    review.ring_stops = reading.ring_stops;
    review.tip_shift_mm = reading.tip_shift_mm;
    if (reading.pattern == Pattern::rembrandt) review.lit_triangle = reading.patch;
    describe_eyes(review, reading);

    std::vector<std::size_t> indices;
    const std::vector<Emitter> emitters = burning(studio, indices);
    if (emitters.size() > 1) {
        const CombinedPattern combined = read_combined_pattern(
            *memory.chart, emitters, subject.head_axes, subject.head_origin_m);
        if (combined.pattern == Pattern::crossed) {
            review.pattern = Pattern::crossed;
            review.note = combined.note;
            review.lit_triangle.reset();
        }
    }
    if (options.margins && review.pattern != Pattern::crossed) {
        const Subject& pose = studio.set.subject;
        review.hold = pattern_hold(*memory.chart, studio.emitters[index], pose.head_turn_deg,
                                   pose.head_nod_deg, pose.head_roll_deg, subject.head_origin_m);
    }
    return review;
}

} // namespace keystead
