// How long pictures take on this machine: keystead_sim_tests "[.bench]" prints a table.
#include "sim/set/set_io.h"
#include "tests/sim/transport/fill_bench.h"
#include "tests/support/helpers/stopwatch.h"

#include <catch2/catch.hpp>
#include <chrono>
#include <cstdio>
#include <functional>
#include <string>

using namespace fill_bench;

namespace {

struct Time {
    double wall_ms = 1e9, cpu_ms = 1e9;
};

/// Shortest of several runs: other work on the machine only makes them longer. The processor time
/// of all threads tells more where others work, too.
Time shortest(int runs, const std::function<void()>& work) {
    Time best;
    for (int i = 0; i < runs; ++i) {
        const auto start = std::chrono::steady_clock::now();
        const double cpu = cpu_ms();
        work();
        best.cpu_ms = std::min(best.cpu_ms, cpu_ms() - cpu);
        const std::chrono::duration<double, std::milli> took =
            std::chrono::steady_clock::now() - start;
        best.wall_ms = std::min(best.wall_ms, took.count());
    }
    return best;
}

void print(const char* what, const Time& time, double rays = 0.0) {
    std::printf("  %-26s %7.2f ms, %7.2f ms of processors", what, time.wall_ms, time.cpu_ms);
    if (rays > 0.0)
        std::printf(", %.2f M rays, %.1f M rays/s a processor", rays * 1e-6,
                    rays / time.cpu_ms * 1e-3);
    std::printf("\n");
    std::fflush(stdout);
}

} // namespace

TEST_CASE("Speed of pictures on the processor", "[.bench]") {
    const auto loaded =
        load_set(std::string(KEYSTEAD_SOURCE_DIR) + "/assets/sets/lantern-maker.json");
    REQUIRE(loaded.ok());
    auto studio = make_studio(loaded.value().set);
    if (std::getenv("KEYSTEAD_BENCH_FLAT") != nullptr) {
        // One search tree for all, as a yardstick for the groups.
        auto flat = std::make_shared<Studio>(*studio);
        flat->rays = std::make_shared<RayScene>();
        for (const ScenePart& part : studio->scene.parts) flat->rays->add(part.mesh, part.mask);
        flat->rays->commit();
        studio = flat;
    }
    const int lights = static_cast<int>(studio->emitters.size());
    for (const PictureSize size : {PictureSize{960, 540}, {1280, 720}}) {
        const View view = lens_view(studio->set.camera, size.width_px, size.height_px);
        auto seen = see_picture(*studio, view, size, {0, 0});
        Layer layer(size);
        std::printf("%d x %d, %zu bytes a pixel\n", size.width_px, size.height_px,
                    seen->bytes() / (size.blocks() * 16));
        print("seen, first", shortest(5, [&] { see_picture(*studio, view, size, {0, 0}); }));
        print("seen, again", shortest(15, [&] {
                  see_picture(*studio, view, size, {0, 0}, seen.get());
              }));
        const auto add = [&](const SeenPicture& picture, int light, int n) {
            add_samples(*studio, picture, view, light, n, 1, {}, layer);
        };
        for (int light = 0; light < lights; ++light) {
            const std::uint64_t before = studio->rays->rays_cast();
            int runs = 0;
            const Time time = shortest(25, [&] { add(*seen, light, ++runs); });
            print(studio->emitters[static_cast<std::size_t>(light)].light.c_str(), time,
                  double(studio->rays->rays_cast() - before) / runs);
        }
        print("all lights", shortest(10, [&] {
                  for (int light = 0; light < lights; ++light) add(*seen, light, 3);
              }));
        print("seen again and all lights", shortest(10, [&] {
                  const auto fresh = see_picture(*studio, view, size, {0, 0}, seen.get());
                  for (int light = 0; light < lights; ++light) add(*fresh, light, 3);
              }));
    }
}
