// Barn doors as solids and as a formula: rays against the drawn flaps, and the cut of beam.glsl.
#include "sim/base/frames.h"
#include "sim/light/meter.h"
#include "sim/set/catalogue.h"
#include "sim/shape/gear_parts.h"
#include "sim/shape/scene.h"

#include <catch2/catch.hpp>

using namespace keystead;

TEST_CASE("The drawn flaps stop what the formula stops", "[doors]") {
    const CatalogueEntry<Modifier>* entry = find_entry(catalogue().modifiers, "reflector-18-doors");
    REQUIRE(entry != nullptr);
    Light light;
    light.id = "spot";
    light.modifier = entry->value;
    light.modifier.barn_doors->top_deg = -10.0;
    light.modifier.barn_doors->left_deg = 70.0;
    AimTarget target;
    target.is_direction = true;
    target.direction = Vec3(0, 0, 1);
    const SupportPose pose = pose_support(light, target);
    const Emitter cut = make_emitter(light, pose, {});
    RayScene flaps;
    int parts = 0;
    for (const ScenePart& part : light_parts(light, pose, cut, 0))
        if (part.part == "doors") flaps.add(part.mesh, part.mask), ++parts;
    REQUIRE(parts > 0);
    flaps.commit();
    Emitter open = cut;
    open.front = {};
    double cut_most = 1.0;
    for (double off_deg = 5.0; off_deg <= 75.0; off_deg += 5.0)
        for (double turn_deg = 0.0; turn_deg < 360.0; turn_deg += 20.0) {
            const double off = radians(off_deg), turn = radians(turn_deg);
            const Vec3 direction = cut.axes * Vec3(std::sin(off) * std::cos(turn),
                                                   std::sin(off) * std::sin(turn), std::cos(off));
            Probe probe;
            probe.position_m = cut.centre_m + 2.0 * direction;
            probe.facing = -direction;
            const double all = exposure_at(open, probe, nullptr, 610);
            const double by_formula = exposure_at(cut, probe, nullptr, 610) / all;
            const double by_rays = exposure_at(open, probe, &flaps, 610) / all;
            INFO(off_deg << " off, turned " << turn_deg);
            // Drawn flaps have a hinge rod and a thickness.
            CHECK(by_rays == Approx(by_formula).margin(0.04));
            cut_most = std::min(cut_most, by_formula);
        }
    CHECK(cut_most == 0.0);
}
