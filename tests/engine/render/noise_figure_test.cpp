// The noise figure against the true error: the same picture with very many samples.
#include "engine/render/noise_figure.h"
#include "engine/render/packet_filler.h"
#include "sim/set/set_io.h"
#include "sim/studio/studio.h"

#include <catch2/catch.hpp>
#include <cmath>

using namespace keystead;

namespace {

double true_percent(const LinearImage& picture, const LinearImage& truth) {
    double square = 0.0, sum = 0.0;
    for (std::size_t i = 0; i < truth.pixels.size(); ++i) {
        const glm::dvec3 off = glm::dvec3(picture.pixels[i]) - glm::dvec3(truth.pixels[i]);
        square += glm::dot(off, off);
        sum += static_cast<double>(truth.pixels[i].r + truth.pixels[i].g + truth.pixels[i].b);
    }
    const auto values = static_cast<double>(3 * truth.pixels.size());
    return 100.0 * std::sqrt(square / values) / (sum / values);
}

} // namespace

TEST_CASE("The noise figure is within a factor of two of the error against very many samples",
          "[noise]") {
    const auto loaded = load_set(KEYSTEAD_SOURCE_DIR "/assets/sets/lantern-maker.json");
    REQUIRE(loaded.ok());
    const auto studio = make_studio(loaded.value().set);
    PacketFiller filler;
    filler.show(studio);
    filler.look(lens_view(studio->set.camera, 160, 90), 160, 90);
    NoiseFigure noise;
    struct Step {
        LinearImage picture;
        double percent;
    };
    std::vector<Step> steps;
    while (filler.refine(1024, 4)) {
        // One by one at first: four at a time would miss 1 and 2.
        if (noise.look(filler, 1) && filler.samples() <= 64)
            steps.push_back({filler.read_linear(), *noise.percent()});
    }
    const LinearImage truth = filler.read_linear();
    REQUIRE(steps.size() >= 3);
    for (const Step& step : steps) {
        const double error = true_percent(step.picture, truth);
        INFO("said " << step.percent << " %, is " << error << " %");
        CHECK(step.percent < 2.0 * error);
        CHECK(step.percent > 0.5 * error);
    }
    // Another power is about as far off; a picture that starts again is unknown.
    const double last = *noise.percent();
    CHECK_FALSE(noise.look(filler, 2));
    CHECK(noise.percent() == last);
    filler.look(lens_view(studio->set.camera, 80, 45), 80, 45);
    CHECK(noise.look(filler, 3));
    CHECK_FALSE(noise.percent().has_value());
}
