// How long pictures take on this machine: keystead_sim_tests "[.bench]" prints a table.
#include "sim/set/set_io.h"
#include "tests/sim/transport/fill_bench.h"

#include <catch2/catch.hpp>
#include <chrono>
#include <cstdio>
#include <functional>
#include <string>

using namespace fill_bench;

namespace {

/// Shortest of several runs, ms: other work on the machine only makes it longer.
double shortest_ms(int runs, const std::function<void()>& work) {
    double best = 1e9;
    for (int i = 0; i < runs; ++i) {
        const auto start = std::chrono::steady_clock::now();
        work();
        const std::chrono::duration<double, std::milli> took =
            std::chrono::steady_clock::now() - start;
        best = std::min(best, took.count());
    }
    return best;
}

} // namespace

TEST_CASE("Speed of pictures on the processor", "[.bench]") {
    const auto loaded =
        load_set(std::string(KEYSTEAD_SOURCE_DIR) + "/assets/sets/lantern-maker.json");
    REQUIRE(loaded.ok());
    const auto studio = make_studio(loaded.value().set);
    const int lights = static_cast<int>(studio->emitters.size());
    for (const PictureSize size : {PictureSize{960, 540}, {1280, 720}}) {
        const View view = lens_view(studio->set.camera, size.width_px, size.height_px);
        auto seen = see_picture(*studio, view, size, {0, 0});
        Layer layer(size);
        std::printf("%d x %d, %zu bytes a pixel\n", size.width_px, size.height_px,
                    seen->bytes() / (size.blocks() * 16));
        std::printf("  what pixels see, first     %6.2f ms\n", shortest_ms(5, [&] {
                        see_picture(*studio, view, size, {0, 0});
                    }));
        std::printf("  what pixels see, again     %6.2f ms\n", shortest_ms(15, [&] {
                        see_picture(*studio, view, size, {0, 0}, seen.get());
                    }));
        for (int light = 0; light < lights; ++light) {
            const std::uint64_t before = studio->rays->rays_cast();
            int runs = 0;
            const double ms = shortest_ms(
                25, [&] { add_samples(*studio, *seen, view, light, ++runs, 1, {}, layer); });
            const double rays = double(studio->rays->rays_cast() - before) / runs;
            std::printf("  %-22s     %6.2f ms, %5.2f M rays, %5.1f M rays/s\n",
                        studio->emitters[static_cast<std::size_t>(light)].light.c_str(), ms,
                        rays * 1e-6, rays / ms * 1e-3);
        }
        const double all = shortest_ms(10, [&] {
            for (int light = 0; light < lights; ++light)
                add_samples(*studio, *seen, view, light, 3, 1, {}, layer);
        });
        std::printf("  all lights                 %6.2f ms\n", all);
        std::printf("  seen again and all lights  %6.2f ms\n", shortest_ms(10, [&] {
                        const auto fresh = see_picture(*studio, view, size, {0, 0}, seen.get());
                        for (int light = 0; light < lights; ++light)
                            add_samples(*studio, *fresh, view, light, 3, 1, {}, layer);
                    }));
    }
}
