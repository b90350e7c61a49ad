#include "sim/review/passes.h"

namespace keystead {

Review review_set(const Studio& studio, const ReviewOptions& options, ReviewMemory* memory) {
    ReviewMemory fresh;
    ReviewMemory& kept = memory != nullptr ? *memory : fresh;
    kept.computed = 0;

    Review review;
    review.set = studio.set.name;
    review.supports = review_supports(studio, kept);
    review.lights = review_lights(studio, kept);
    const int key = key_light(studio, review.lights);
    review.portrait = review_portrait(studio, key, kept, options);
    review.exposure = review_exposure(studio, review.lights, key);
    review.separation = review_separation(studio);
    review.background = review_background(studio, review.lights, key);
    review.frame = review_frame(studio);
    review.room = review_room(studio);
    review.spill = review_spill(studio, review.lights, key);
    review.findings = collect_findings(studio, review);
    review.cautions = cautions_for(studio.set);
    return review;
}

} // namespace keystead
