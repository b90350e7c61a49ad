#include "sim/shape/gear_lights.h"

#include "sim/base/frames.h"
#include "sim/set/catalogue.h"

#include <catch2/catch.hpp>

namespace gear_lights {

using namespace keystead;

Built build(const Light& light) {
    AimTarget target;
    target.point_m = {0, 1.5, 0};
    target.is_direction = light.aim.kind == AimKind::angles;
    target.direction = direction_from({light.aim.azimuth_deg, light.aim.elevation_deg});
    Built built{light, pose_support(light, target), {}, {}};
    built.emitter = make_emitter(light, built.pose, MeterSettings{});
    built.parts = light_parts(light, built.pose, built.emitter, 3);
    return built;
}

Light made_of(const std::string& support, const std::string& modifier, double bag_kg) {
    Light light;
    light.id = "lamp";
    const auto* support_entry = find_entry(catalogue().supports, support);
    const auto* modifier_entry = find_entry(catalogue().modifiers, modifier);
    const auto* head_entry = find_entry(catalogue().heads, "monolight-400");
    REQUIRE(support_entry != nullptr);
    REQUIRE(modifier_entry != nullptr);
    REQUIRE(head_entry != nullptr);
    light.support = support_entry->value;
    light.modifier = modifier_entry->value;
    light.head = head_entry->value;
    light.support.base.position_m = {-1.3, 1.1};
    light.support.base.turn_deg = 35.0;
    if (bag_kg > 0.0) {
        Bag bag;
        bag.mass_kg = bag_kg;
        bag.at_m = 0.55 * light.support.base.foot_radius_m;
        light.support.bags.push_back(bag);
    }
    return light;
}

} // namespace gear_lights
