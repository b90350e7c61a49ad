#include "sim/review/review.h"

#include "sim/review/memory.h"
#include "sim/review/passes.h"

#include <tbb/parallel_invoke.h>

namespace keystead {

namespace {

/// The two longest passes side by side: lights on the face, and what the camera's picture needs of
/// meters. They share no memory, and the passes find what they ask for.
void read_ahead(const Bench& bench, ReviewMemory& memory) {
    tbb::parallel_invoke([&] { pattern_of(bench.studio, memory); },
                         [&] {
                             review_separation(bench);
                             review_background(bench);
                         });
}

} // namespace

Review review_set(const Studio& studio, const ReviewOptions& options, ReviewMemory* kept) {
    ReviewMemory for_once;
    ReviewMemory& memory = kept != nullptr ? *kept : for_once;
    memory.computed = 0;
    Review review;
    review.set = studio.set.name;
    review.supports = review_supports(studio, memory);
    const std::shared_ptr<const Sight> sight = sight_of(studio, memory);
    Bench bench = make_bench(studio, *sight);
    std::vector<BouncePlace> bounced;
    memory.probes.begin(studio);
    bench.aids = {{}, &memory.probes, options.bounce};
    bench.bounced = &bounced;
    bench.searches = options.margins || options.searches;
    bench.eye = &memory.eye;
    light_panels(bench, memory);
    review.lights = review_lights(bench, memory);
    read_ahead(bench, memory);
    review.portrait = review_portrait(bench, review.lights, options.margins, memory);
    review.panels = review_panels(bench);
    review.portrait.eyes = review_eyes(bench, review.panels);
    review.portrait.glasses = review_glasses(bench, review.panels);
    review.exposure = review_exposure(bench, review.lights, review.panels);
    review_pair(bench, review);
    review.exposure.clipped = review_clipped(bench, review.panels, memory);
    review.exposure.body = review_body(bench);
    review_meter(bench, review);
    review.separation = review_separation(bench);
    review.background = review_background(bench);
    review.frame = review_frame(bench, memory);
    review.room = review_room(studio);
    review.spill = review_spill(bench);
    review.lens_aims = review_lens_aims(bench, review);
    review.background.shadows = review_shadows(bench);
    review.cautions = cautions_for(studio.set);
    review.findings = find_all(bench, review);
    return review;
}

} // namespace keystead
