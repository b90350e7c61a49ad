// Light bodies and the light they carry: a shell, its rim, its grid's frame and the head behind it
// are casters like anything else, and must not stand in their own light.
#include "sim/base/frames.h"
#include "sim/light/meter.h"
#include "sim/set/catalogue.h"
#include "sim/shape/gear_parts.h"
#include "sim/shape/scene.h"

#include <catch2/catch.hpp>

using namespace keystead;

namespace {

/// A light from the catalogue's modifier on a plain stand, aimed along +Z, and its ray scene.
struct LoneLight {
    Emitter emitter;
    RayScene rays;
};

LoneLight lone_light(const Modifier& modifier) {
    Light light;
    light.id = "lone";
    light.modifier = modifier;
    AimTarget target;
    target.is_direction = true;
    target.direction = Vec3(0, 0, 1);
    const SupportPose pose = pose_support(light, target);
    LoneLight lone;
    lone.emitter = make_emitter(light, pose, {});
    for (const ScenePart& part : light_parts(light, pose, lone.emitter, 0))
        lone.rays.add(part.mesh, part.mask);
    lone.rays.commit();
    return lone;
}

/// Share of the light that gets past the light's own body to a receptor facing it, `off_deg` to the
/// side of the axis and 2 m away.
double own_share(const LoneLight& lone, double off_deg) {
    Probe probe;
    const Vec3 direction = direction_from({off_deg, 0});
    probe.position_m = lone.emitter.centre_m + 2.0 * direction;
    probe.facing = -direction;
    Emitter free = lone.emitter;
    free.front = {}; // rim and lamp belong to the body
    const double open = exposure_at(free, probe, nullptr);
    return open > 0.0 ? exposure_at(lone.emitter, probe, &lone.rays) / open : 1.0;
}

} // namespace

TEST_CASE("No modifier of the catalogue stands in its own light on the axis", "[shell]") {
    for (const CatalogueEntry<Modifier>& entry : catalogue().modifiers) {
        const LoneLight lone = lone_light(entry.value);
        INFO(entry.id);
        // An umbrella's light comes back past the lamp, its yoke and its column: on a canopy 1 m
        // wide, seen from 2 m, about 3 % for a lamp 0.13 m across and twice that with the rest.
        const bool umbrella = entry.value.shape == ModifierShape::umbrella;
        CHECK(own_share(lone, 0.0) >= (umbrella ? 0.88 : 0.999));
    }
}

TEST_CASE("A recessed face is cut off by its lip toward the side, the more the narrower it is",
          "[shell]") {
    const auto share = [](const char* id, double off_deg) {
        const CatalogueEntry<Modifier>* entry = find_entry(catalogue().modifiers, id);
        REQUIRE(entry != nullptr);
        return own_share(lone_light(entry->value), off_deg);
    };
    // Over 30 degrees a lip of a few centimetres costs little (a tenth of a stop is 0.93).
    CHECK(share("octa-90", 30) > 0.93);
    CHECK(share("strip-30x120", 30) > 0.93);
    CHECK(share("octa-90", 80) < 0.8);
    CHECK(share("strip-30x120", 80) < share("softbox-60x90", 80));
    CHECK(share("softbox-60x90", 80) < share("softbox-90x120", 80));
}

TEST_CASE("A bare lamp's own head keeps its light from behind", "[shell]") {
    const CatalogueEntry<Modifier>* bare = find_entry(catalogue().modifiers, "bare");
    REQUIRE(bare != nullptr);
    const LoneLight lone = lone_light(bare->value);
    CHECK(own_share(lone, 80) > 0.99);
    CHECK(own_share(lone, 180) < 0.5);
}
