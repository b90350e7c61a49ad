// The review's separation against the path tracer's pixels at the same places (edge_agreement.h
// says what the two share).
#include "engine/render/edge_agreement.h"
#include "sim/review/review.h"
#include "sim/review/tone.h"
#include "sim/set/set_io.h"

#include <catch2/catch.hpp>
#include <cmath>

using namespace keystead;

namespace {

/// What the project promises of the step from outside to inside; a third of what separates "weak"
/// from "merges" (tone.h).
constexpr double promised_stops = 0.15;

/// Where the review is known to be farther off: hair in a black flat's shade, four stops under the
/// card, that only walls and paper light. The review takes such light as coming alike from all
/// round; there most of it comes from one side, and strands answer by direction. Measured: 0.22.
double allowed_stops(const std::string& set, const std::string& place) {
    return set == "lantern-maker.json" && place == "hair_left" ? 0.30 : promised_stops;
}

std::shared_ptr<const Studio> demo(const std::string& name) {
    const auto loaded = load_set(std::string(KEYSTEAD_SOURCE_DIR) + "/assets/sets/" + name);
    REQUIRE(loaded.ok());
    return make_studio(loaded.value().set);
}

} // namespace

TEST_CASE("Steps along the outline are the path tracer's", "[edge-agreement]") {
    EdgeComparisonOptions quick;
    quick.samples = 64;
    for (const char* name : {"night-baker.json", "night-baker-mended.json", "lantern-maker.json"}) {
        const auto studio = demo(name);
        const std::vector<EdgeAgreement> edges = compare_edges(*studio, quick);
        CHECK(edges.size() == 9);
        for (const EdgeAgreement& edge : edges) {
            const double error = std::hypot(edge.inside.error_stops, edge.outside.error_stops);
            INFO(name << " " << edge.place << ": review " << edge.review_step() << ", picture "
                      << edge.picture_step() << " ± " << error);
            CHECK(error < 0.08);
            CHECK(std::abs(edge.off()) < allowed_stops(name, edge.place) + 2.0 * error);
        }
    }
}

TEST_CASE("The places compared are the review's own", "[edge-agreement]") {
    const auto studio = demo("night-baker.json");
    ReviewOptions options;
    options.margins = false;
    const Review review = review_set(*studio, options);
    EdgeComparisonOptions quick;
    quick.samples = 32;
    quick.bounces = 0;
    const std::vector<EdgeAgreement> edges = compare_edges(*studio, quick);
    REQUIRE(edges.size() == review.separation.size());
    for (std::size_t i = 0; i < edges.size(); ++i) {
        CHECK(edges[i].place == review.separation[i].place);
        CHECK(edges[i].inside.review_stops ==
              Approx(review.separation[i].inside_stops).margin(0.02));
        CHECK(edges[i].outside.review_stops ==
              Approx(review.separation[i].outside_stops).margin(0.02));
    }
    // Without light by way of other surfaces the dark side is far off: the comparison can fail.
    double most = 0.0;
    for (const EdgeAgreement& edge : edges) most = std::max(most, std::abs(edge.off()));
    CHECK(most > 2.0 * promised_stops);
}
