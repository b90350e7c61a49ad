// Pictures made on the processor against the OpenGL renderer's: two ways to the same light.
#include "sim/set/set_io.h"
#include "sim/transport/fill.h"
#include "tests/engine/render/bench.h"
#include "tests/sim/transport/fill_bench.h"

#include <catch2/catch.hpp>
#include <cmath>

using namespace bench;

namespace {

std::shared_ptr<const Studio> demo(const std::string& name) {
    const auto loaded = load_set(std::string(KEYSTEAD_SOURCE_DIR) + "/assets/sets/" + name);
    INFO((loaded.ok() ? "" : loaded.problem().message()));
    REQUIRE(loaded.ok());
    return make_studio(loaded.value().set);
}

/// All lights at their power, on the processor; per light where `only` is not negative.
std::vector<glm::vec3> on_processor(const Studio& studio, const View& view, PictureSize size,
                                    int samples, int only = -1) {
    std::vector<glm::vec3> sum(std::size_t(size.width_px) * std::size_t(size.height_px),
                               glm::vec3(0.0F));
    std::shared_ptr<SeenPicture> seen;
    std::vector<std::unique_ptr<fill_bench::Layer>> layers;
    for (std::size_t i = 0; i < studio.emitters.size(); ++i)
        layers.push_back(std::make_unique<fill_bench::Layer>(size));
    for (int first = 0; first < samples; first += samples_per_set) {
        seen =
            see_picture(studio, view, size,
                        set_offset_px(sample_set(static_cast<std::uint32_t>(first))), seen.get());
        for (std::size_t i = 0; i < layers.size(); ++i)
            fill_bench::add_samples(studio, *seen, view, static_cast<int>(i), first,
                                    samples_per_set, {}, *layers[i]);
    }
    for (std::size_t i = 0; i < layers.size(); ++i) {
        if (only >= 0 && static_cast<std::size_t>(only) != i) continue;
        const Emitter& e = studio.emitters[i];
        const double time = e.flash ? 1.0 : studio.set.camera.shutter_s;
        const glm::vec3 factor(e.colour *
                               (e.exitance * e.power * (only < 0 ? time : 1.0) / samples));
        for (int y = 0; y < size.height_px; ++y)
            for (int x = 0; x < size.width_px; ++x)
                sum[static_cast<std::size_t>(y * size.width_px + x)] +=
                    factor * layers[i]->at(size, x, y);
    }
    return sum;
}

struct Difference {
    double of_means = 0.0; ///< relative
    double mean_abs = 0.0; ///< mean absolute difference over the mean
};

Difference difference(const std::vector<glm::vec3>& a, const std::vector<glm::vec3>& b) {
    double sum_a = 0.0, sum_b = 0.0, apart = 0.0;
    for (std::size_t i = 0; i < a.size(); ++i) {
        sum_a += double(a[i].g);
        sum_b += double(b[i].g);
        apart += std::abs(double(a[i].g) - double(b[i].g));
    }
    return {sum_a / sum_b - 1.0, apart / sum_b};
}

} // namespace

TEST_CASE("The processor's picture is the OpenGL renderer's") {
    for (const char* name : {"lantern-maker.json", "harbour-choir-short.json"}) {
        const auto studio = demo(name);
        const PictureSize size{120, 150};
        const View view = lens_view(studio->set.camera, size.width_px, size.height_px);
        constexpr int samples = 64;
        auto r = renderer(true);
        r->show(studio);
        r->look(view, size.width_px, size.height_px);
        converge(*r, samples);
        for (int light = -1; light < static_cast<int>(studio->emitters.size()); ++light) {
            const Difference apart = difference(on_processor(*studio, view, size, samples, light),
                                                r->read_linear(light).pixels);
            UNSCOPED_INFO(name << ", light " << light << ": means differ by " << apart.of_means
                               << ", pixels by " << apart.mean_abs);
            if (light < 0) {
                CHECK(std::abs(apart.of_means) < 0.005);
                CHECK(apart.mean_abs < 0.02);
            }
        }
        SUCCEED();
    }
}
