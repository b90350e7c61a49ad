#include "engine/ui/remedy.h"

#include "engine/ui/quantity.h"
#include "engine/ui/selection.h"
#include "engine/ui/set_commands.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace keystead::ui {

namespace {

/// Nominal f-numbers in thirds of a stop, ISO 2720 series as printed on lenses.
constexpr std::array thirds{1.0,  1.1,  1.2,  1.4,  1.6,  1.8,  2.0,  2.2,  2.5, 2.8,  3.2,
                            3.5,  4.0,  4.5,  5.0,  5.6,  6.3,  7.1,  8.0,  9.0, 10.0, 11.0,
                            13.0, 14.0, 16.0, 18.0, 20.0, 22.0, 25.0, 29.0, 32.0};

bool stands_better(const Drawn& drawn, std::size_t light, const Command& command) {
    const Result<Set> changed = keystead::apply(drawn.set, command);
    if (!changed) return false;
    const Drawn after = draw_set(changed.value(), drawn.has_subject ? &drawn.landmarks : nullptr);
    const Stability &before = drawn.stability[light], &now = after.stability[light];
    return now.verdict < before.verdict ||
           now.worst_tip_angle_deg > before.worst_tip_angle_deg + 0.5;
}

double half_kilograms(double mass_kg) {
    return std::ceil(2.0 * mass_kg - 1e-9) / 2.0;
}

Bag bag_of(const Ballast& ballast, int leg, double mass_kg) {
    Bag bag;
    bag.mass_kg = mass_kg;
    bag.place = leg >= 0                  ? BagPlace::leg
                : ballast.place == "tail" ? BagPlace::tail
                                          : BagPlace::column;
    bag.leg = std::max(0, leg);
    bag.at_m = ballast.at_m;
    return bag;
}

Remedy hang(const Light& light, const Ballast& ballast) {
    std::vector<Bag> bags = light.support.bags;
    const double mass = half_kilograms(ballast.mass_kg);
    if (ballast.second_leg >= 0) {
        const double half = half_kilograms(0.5 * ballast.mass_kg);
        bags.push_back(bag_of(ballast, ballast.leg, half));
        bags.push_back(bag_of(ballast, ballast.second_leg, half));
    } else {
        bags.push_back(bag_of(ballast, ballast.leg, mass));
    }
    const std::string where =
        ballast.leg >= 0 ? "leg " + std::to_string(ballast.leg + 1) : ballast.place;
    return {"hang " + number_text(mass, 1) + " kg on " +
                (ballast.leg >= 0 ? where : "the " + where),
            together("bag for " + light.id, {set_bags(light.id, bags)})};
}

std::optional<Remedy> counterweight(const Light& light, const Stability& stability) {
    if (!light.support.arm || stability.counterweight_needed_kg <= 0.0) return std::nullopt;
    const Arm& arm = *light.support.arm;
    Counterweight made = arm.counterweight.value_or(Counterweight{});
    if (!arm.counterweight) made.place_m = counterweight_place_m(light.support);
    if (made.place_m <= 0.0) return std::nullopt;
    made.mass_kg = half_kilograms(stability.counterweight_needed_kg);
    return Remedy{"counterweight " + number_text(made.mass_kg, 1) + " kg",
                  set_counterweight(light.id, made)};
}

std::optional<Remedy> for_support(const Drawn& drawn, std::size_t index) {
    const Light& light = drawn.set.lights[index];
    const Stability& stability = drawn.stability[index];
    std::vector<Remedy> tries;
    const double present = light.support.arm && light.support.arm->counterweight
                               ? light.support.arm->counterweight->mass_kg
                               : 0.0;
    if (stability.counterweight_needed_kg > present + 0.25 &&
        stability.grip_torque_nm > 0.5 * stability.grip_limit_nm)
        if (auto balanced = counterweight(light, stability)) tries.push_back(*balanced);
    for (const Ballast& ballast : {stability.bag_there, stability.bag_least})
        if (ballast.mass_kg > 0.0 && !ballast.place.empty()) tries.push_back(hang(light, ballast));
    for (const Remedy& each : tries)
        if (stands_better(drawn, index, each.command)) return each;
    return std::nullopt;
}

std::optional<Remedy> lower(const Light& light, const Review& review) {
    double through = 0.0;
    for (const RoomReview& fit : review.room)
        if (fit.id == light.id && fit.nearest == "ceiling")
            through = std::max(through, -fit.clearance_m);
    const Column& column = light.support.column;
    const double height = std::floor((column.height_m - through - 0.05) * 100.0) / 100.0;
    if (through <= 0.0 || height < column.min_height_m) return std::nullopt;
    return Remedy{"lower it " + number_text(column.height_m - height, 2) + " m",
                  set_number(light_path(light.id, "support.column.height_m"), height)};
}

std::optional<Remedy> expose(const Set& set, const Review& review) {
    if (!review.exposure.stops_off) return std::nullopt;
    const double wanted = set.camera.f_number * std::pow(2.0, 0.5 * *review.exposure.stops_off);
    const auto nearest = std::min_element(thirds.begin(), thirds.end(), [&](double a, double b) {
        return std::abs(std::log2(a / wanted)) < std::abs(std::log2(b / wanted));
    });
    if (std::abs(std::log2(*nearest / wanted)) > 0.25 ||
        std::abs(*nearest - set.camera.f_number) < 0.01)
        return std::nullopt;
    const int decimals = *nearest < 10.0 && *nearest != std::floor(*nearest) ? 1 : 0;
    return Remedy{"set f/" + number_text(*nearest, decimals),
                  set_number("camera.f_number", *nearest)};
}

Remedy hang_all(const Light& light) {
    std::vector<Bag> bags = light.support.bags;
    for (Bag& bag : bags) bag.hanging = true;
    return {"hang it", set_bags(light.id, bags)};
}

/// What the review itself wrote down as edits.
Remedy as_written(const Mend& mend) {
    std::vector<Command> commands;
    for (const Edit& edit : mend.edits) commands.push_back(SetValue{edit.path, edit.value});
    return {mend.act, together(mend.act, commands)};
}

} // namespace

std::optional<Remedy> remedy_for(const Finding& finding, const Drawn& drawn, const Review& review) {
    if (!finding.mend.edits.empty()) return as_written(finding.mend);
    if (finding.code == "exposure-off") return expose(drawn.set, review);
    const auto index = light_index(drawn.set, finding.about);
    if (!index) return std::nullopt;
    const Light& light = drawn.set.lights[*index];
    const std::string& code = finding.code;
    if (code == "support-unstable" || code == "support-caution") return for_support(drawn, *index);
    if (code == "grip-torque") return counterweight(light, drawn.stability[*index]);
    if (code == "knuckle-loosens" && light.support.arm)
        return Remedy{"turn the clamp over",
                      set_flag(light_path(light.id, "support.arm.knob_on_right"),
                               !light.support.arm->knob_on_right)};
    if (code == "bag-resting") return hang_all(light);
    if (code == "wheels-unlocked")
        return Remedy{"lock the wheels",
                      set_flag(light_path(light.id, "support.base.locked"), true)};
    if (code == "through-ceiling") return lower(light, review);
    if (code == "power-out-of-range")
        return Remedy{
            "set its least power",
            set_number(light_path(light.id, "head.power_stops_below"), light.head.range_stops)};
    return std::nullopt;
}

} // namespace keystead::ui
