// What following an edit costs: keystead_sim_tests "[.bench]". Processor time of all threads, so
// that other work on the machine counts little; two cores that work side by side take half.
#include "sim/review/review.h"
#include "sim/set/catalogue.h"
#include "sim/set/set_io.h"
#include "sim/studio/studio.h"
#include "sim/transport/bake.h"
#include "tests/support/helpers/stopwatch.h"

#include <catch2/catch.hpp>
#include <iostream>
#include <optional>
#include <utility>

using namespace keystead;

namespace {

Set demo() {
    return load_set(assets_folder() / "sets" / "lantern-maker.json").value().set;
}

} // namespace

TEST_CASE("Following one light that is dragged, and a head that turns", "[.bench]") {
    Set set = demo();
    auto studio = make_studio(set);
    const auto follow = [&](const char* what, auto&& edit) {
        const double cost_ms = least_cpu_ms(12, [&] {
            edit();
            studio = make_studio(set, studio);
        });
        std::cout << what << ": " << cost_ms << " ms of processor time, "
                  << studio->rays->groups_built() << " ray groups built\n";
        return cost_ms;
    };
    follow("moved light", [&] { set.lights[0].support.base.position_m.x += 0.01; });
    follow("turned head", [&] { set.subject.head_turn_deg += 0.5; });
    follow("power", [&] { set.lights[0].head.power_stops_below += 0.01; });
    std::optional<ReviewMemory> memory(std::in_place);
    const auto judge = [&](const char* what, auto&& edit) {
        const double cost_ms = least_cpu_ms(
            4, [&] { review_set(*studio, {.margins = false}, &*memory); },
            [&] {
                edit();
                studio = make_studio(set, studio);
            });
        std::cout << what << ": " << cost_ms << " ms\n";
    };
    judge("review from nothing", [&] { memory.emplace(); });
    judge("review of a moved light", [&] { set.lights[0].support.base.position_m.x += 0.01; });
    judge("review of a turned head", [&] { set.subject.head_turn_deg += 0.5; });
    judge("review of another power", [&] { set.lights[0].head.power_stops_below += 0.01; });
    BakeOptions options;
    options.paths = 32;
    std::cout << "bake: " << least_cpu_ms(2, [&] {
        bake_indirect(studio->scene, *studio->rays, studio->emitters, options);
    }) << " ms\n";
}
