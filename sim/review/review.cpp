#include "sim/review/review.h"

#include "sim/review/memory.h"
#include "sim/review/passes.h"

#include <tbb/parallel_invoke.h>
#include <utility>

namespace keystead {

namespace {

/// What the camera's picture needs of meters.
struct InView {
    std::vector<Edge> edges;
    BackgroundLight background;
    std::vector<SpotReading> spots;
};

/// The light on the face, and by whom.
void read_face(Bench& bench, bool margins, ReviewMemory& memory, Review& review) {
    review.portrait = review_portrait(bench, review.lights, margins, memory);
    review.panels = review_panels(bench);
    review.exposure = review_exposure(bench, review.lights, review.panels);
    review.exposure.clipped = review_clipped(bench, review.panels, memory);
    review.exposure.body = review_body(bench);
    review_meter(bench, review);
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
    // The two long halves side by side. They share what probes got, which is kept for both; rays
    // from the camera and places that share their bounce belong to the second alone.
    InView in_view;
    const Bench before_key = bench;
    tbb::parallel_invoke([&] { read_face(bench, options.margins, memory, review); },
                         [&] {
                             in_view.edges = edges_of(before_key);
                             in_view.background = light_on_background(before_key);
                             in_view.spots = review_spots(before_key);
                         });
    review.spots = std::move(in_view.spots);
    review.portrait.eyes = review_eyes(bench, review.panels);
    review.portrait.glasses = review_glasses(bench, review.panels);
    review_pair(bench, review);
    review.separation = review_separation(bench, in_view.edges);
    review.background = review_background(bench, in_view.background);
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
