// The packet filler's remix and display transform against the formulas for one pixel, and its short
// cuts against doing everything anew.
#include "engine/render/develop.h"
#include "engine/render/display_text.h"
#include "engine/render/packet_layers.h"

#include <catch2/catch.hpp>
#include <chrono>
#include <cstdio>
#include <random>

using namespace keystead;

namespace {

PacketLayers random_layers(PictureSize size, std::size_t count, unsigned seed) {
    PacketLayers layers = make_packet_layers(size, count);
    std::mt19937 random(seed);
    std::uniform_real_distribution<float> value(0.0F, 1.0F);
    for (std::size_t i = 0; i < count; ++i)
        for (float& one : writable(layers, i)) one = value(random) * value(random);
    return layers;
}

std::vector<PacketWeight> weights_of(std::size_t lights) {
    std::vector<PacketWeight> weights;
    for (std::size_t i = 0; i < lights; ++i) {
        const auto place = static_cast<float>(i);
        weights.push_back({i, i, {0.3F + place, 0.5F, 0.2F * place}});
        weights.push_back({lights + i, i, {0.1F, 0.3F, 0.2F + place}});
    }
    return weights;
}

const Display& quiet() {
    static const Display display = [] {
        Display d;
        d.dither = false;
        d.exposure = 0.7;
        d.balance = glm::mat3(1.1F, 0.02F, 0.0F, 0.01F, 0.9F, 0.03F, 0.0F, 0.02F, 1.2F);
        return d;
    }();
    return display;
}

int worst_step(const RgbaImage& a, const RgbaImage& b) {
    REQUIRE(a.pixels.size() == b.pixels.size());
    int worst = 0;
    for (std::size_t i = 0; i < a.pixels.size(); ++i)
        worst = std::max(worst, std::abs(a.pixels[i] - b.pixels[i]));
    return worst;
}

} // namespace

TEST_CASE("Sixteen pixels at once are shown as one is", "[packets]") {
    // Not whole blocks: the last column and row reach over the edge.
    const PictureSize size{67, 41};
    const PacketLayers layers = random_layers(size, 6, 3);
    const std::vector<PacketWeight> weights = weights_of(3);
    const LinearImage linear = PacketRemix::linear(layers, weights);
    for (const bool soft : {true, false})
        for (const bool dither : {true, false}) {
            Display display = quiet();
            display.soft_shoulder = soft;
            display.dither = dither;
            RgbaImage shown;
            PacketRemix().develop(layers, weights, display, false, shown);
            CHECK(worst_step(shown, developed(linear, display)) <= 1);
            RgbaImage upside_down;
            PacketRemix().develop(layers, weights, display, true, upside_down);
            const std::size_t row = 4U * 67U;
            for (std::size_t y = 0; y < 41; ++y)
                REQUIRE(std::equal(
                    shown.pixels.begin() + static_cast<std::ptrdiff_t>(y * row),
                    shown.pixels.begin() + static_cast<std::ptrdiff_t>((y + 1) * row),
                    upside_down.pixels.begin() + static_cast<std::ptrdiff_t>((40 - y) * row)));
        }
}

TEST_CASE("A linear sum is the layers' times their weights", "[packets]") {
    const PictureSize size{12, 8};
    const PacketLayers layers = random_layers(size, 4, 9);
    const std::vector<PacketWeight> weights = weights_of(2);
    const LinearImage linear = PacketRemix::linear(layers, weights);
    for (int y = 0; y < 8; ++y)
        for (int x = 0; x < 12; ++x) {
            glm::dvec3 sum(0.0);
            const std::size_t block = static_cast<std::size_t>(y / 4 * 3 + x / 4);
            const std::size_t lane = static_cast<std::size_t>(y % 4 * 4 + x % 4);
            for (const PacketWeight& weight : weights)
                for (std::size_t c = 0; c < 3; ++c)
                    sum[static_cast<int>(c)] +=
                        static_cast<double>(weight.factor[static_cast<int>(c)]) *
                        static_cast<double>(
                            layers.sums[weight.layer].all()[block * 48 + c * 16 + lane]);
            const glm::vec3 got = linear.pixels[static_cast<std::size_t>(y * 12 + x)];
            for (int c = 0; c < 3; ++c)
                CHECK(static_cast<double>(got[c]) == Approx(sum[c]).epsilon(1e-6));
        }
}

TEST_CASE("Remembering the other lights changes no picture", "[packets]") {
    const PictureSize size{64, 32};
    PacketLayers layers = random_layers(size, 10, 5);
    std::vector<PacketWeight> weights = weights_of(5);
    PacketRemix remembering;
    std::mt19937 random(17);
    const auto both_agree = [&] {
        RgbaImage quick, anew;
        remembering.develop(layers, weights, quiet(), false, quick);
        PacketRemix().develop(layers, weights, quiet(), false, anew);
        return worst_step(quick, anew) <= 1;
    };
    REQUIRE(both_agree());
    for (int step = 0; step < 200; ++step) {
        const std::size_t light = random() % 100 < 70 ? 2 : random() % 5;
        switch (random() % 4) {
        case 0: // power
            weights[2 * light].factor *= 0.9F;
            weights[2 * light + 1].factor *= 0.9F;
            break;
        case 1: // moved
            for (float& value : writable(layers, light)) value = 0.5F - 0.3F * value;
            break;
        case 2: // off and on
            weights[2 * light].factor = glm::vec3(weights[2 * light].factor.x > 0.0F ? 0.0F : 1.0F);
            break;
        default: // nothing, or another light as well
            if (random() % 2 == 0) weights[0].factor *= 1.02F, weights[9].factor *= 0.98F;
        }
        INFO("step " << step);
        REQUIRE(both_agree());
    }
}

TEST_CASE("What one remix and display costs", "[.bench]") {
    for (const PictureSize size : {PictureSize{960, 540}, PictureSize{1280, 720}}) {
        PacketLayers layers = random_layers(size, 10, 5);
        std::vector<PacketWeight> weights = weights_of(5);
        PacketRemix remix;
        RgbaImage shown;
        const auto best_ms = [&](auto edit) {
            double best = 1e9;
            for (int i = 0; i < 15; ++i) {
                edit(i);
                const auto start = std::chrono::steady_clock::now();
                remix.develop(layers, weights, Display{}, false, shown);
                best = std::min(best, std::chrono::duration<double, std::milli>(
                                          std::chrono::steady_clock::now() - start)
                                          .count());
            }
            return best;
        };
        const double all = best_ms([&](int) {
            for (PacketWeight& w : weights) w.factor *= 0.99F;
        });
        const double one = best_ms([&](int) { weights[2].factor *= 0.9F; });
        std::printf("%d x %d, five lights: all changed %.2f ms, one changed %.2f ms\n",
                    size.width_px, size.height_px, all, one);
    }
}
