// Who is the key, what shadow it makes, on which side, and how firmly.
#include "sim/light/exposure.h"
#include "sim/review/memory.h"
#include "sim/review/passes.h"

#include <cmath>

namespace keystead {

namespace {

bool in_front_of_ears(const LightReview& light) {
    return std::abs(light.face_angles.azimuth_deg) < 90.0;
}

/// Split reaches a little behind the line of the ears: its key is no light from behind.
bool names_the_front(const CombinedPattern& pattern) {
    const Pattern name = pattern.alone[static_cast<std::size_t>(pattern.key)].pattern;
    return name != Pattern::rim && name != Pattern::none;
}

/// The light the face is named after. What makes the nose shadow that shows is the key, however
/// strong a light from behind may be; without any in front, the strongest.
int choose_key(const std::vector<LightReview>& lights, const CombinedPattern& pattern) {
    const auto strength = [&](std::size_t i) { return lights[i].f_number.value_or(0.0); };
    if (pattern.key >= 0 && strength(static_cast<std::size_t>(pattern.key)) > 0.0 &&
        (in_front_of_ears(lights[static_cast<std::size_t>(pattern.key)]) ||
         names_the_front(pattern)))
        return pattern.key;
    int best = -1;
    for (const bool only_front : {true, false}) {
        for (std::size_t i = 0; i < lights.size(); ++i) {
            if (strength(i) <= 0.0 || (only_front && !in_front_of_ears(lights[i]))) continue;
            if (best < 0 || strength(i) > strength(static_cast<std::size_t>(best)))
                best = static_cast<int>(i);
        }
        if (best >= 0) break;
    }
    return best;
}

void read_key(PortraitReview& portrait, const PatternReading& reading) {
    portrait.lit_triangle = reading.patch;
    portrait.ring_stops = reading.ring_stops;
    portrait.tip_shift_mm = reading.tip_shift_mm;
}

} // namespace

PortraitReview review_portrait(Bench& bench, std::vector<LightReview>& lights, bool margins,
                               ReviewMemory& memory) {
    PortraitReview portrait;
    const Studio& studio = bench.studio;
    const CombinedPattern pattern = pattern_of(studio, memory);
    for (std::size_t i = 0; i < lights.size() && i < pattern.alone.size(); ++i)
        lights[i].pattern_if_alone = pattern.alone[i].pattern;
    bench.key = choose_key(lights, pattern);
    portrait.note = pattern.note;
    if (bench.key < 0) return portrait;

    const auto key = static_cast<std::size_t>(bench.key);
    bench.key_exposure_lx_s =
        exposure_of_f_number(*lights[key].f_number, bench.iso, bench.flat_c_lx_s);
    portrait.key = lights[key].id;
    portrait.face_angles = lights[key].face_angles;
    portrait.pattern = bench.key == pattern.key ? pattern.pattern : lights[key].pattern_if_alone;
    if (bench.key != pattern.key) portrait.note = pattern.alone[key].note;
    portrait.side = lit_side(studio.emitters[key].centre_m - bench.marks.face,
                             bench.sight.frame.eye_m - bench.marks.face, studio.subject->head_axes);
    read_key(portrait, pattern.alone[key]);
    portrait.holds = holds_of(studio, key, margins, memory);
    if (portrait.holds) {
        const HoldRange& turn = portrait.holds->turn_deg;
        portrait.hold = {turn.least, turn.most, turn.below, turn.above};
    }
    return portrait;
}

} // namespace keystead
