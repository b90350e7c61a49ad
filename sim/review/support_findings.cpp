#include "sim/review/findings.h"
#include "sim/review/phrases.h"

#include <algorithm>
#include <cmath>

namespace keystead {

namespace {

/// Bags come in half kilograms at best: round up.
std::string bag_mass(double mass_kg) {
    return number(std::ceil(mass_kg * 2.0) / 2.0, 1);
}

std::string bag_place(const Ballast& bag) {
    return bag.leg >= 0 ? "on " + bag.place : "on the " + bag.place;
}

bool needs_counterweight(const Support& support, const Stability& stability) {
    if (!support.arm || stability.counterweight_needed_kg <= 0.0) return false;
    const double present = support.arm->counterweight ? support.arm->counterweight->mass_kg : 0.0;
    return stability.counterweight_needed_kg > present + 0.25 &&
           stability.grip_torque_nm > 0.5 * stability.grip_limit_nm;
}

std::string ballast_remedy(const Support& support, const Stability& stability) {
    std::string remedy;
    if (needs_counterweight(support, stability))
        remedy = "Balance the arm: " + number(stability.counterweight_needed_kg, 1) +
                 " kg in all as counterweight on the tail.";
    const Ballast& bag =
        !stability.bag_there.place.empty() ? stability.bag_there : stability.bag_least;
    if (bag.mass_kg > 0.0 && !bag.place.empty()) {
        remedy += (remedy.empty() ? "Hang " : " Without that, hang ") + bag_mass(bag.mass_kg) +
                  " kg more " + bag_place(bag) + ".";
        const Ballast& least = stability.bag_least;
        if (!least.place.empty() && least.place != bag.place && least.mass_kg < bag.mass_kg - 0.5)
            remedy += " " + bag_mass(least.mass_kg) + " kg " + bag_place(least) + " does the same.";
    }
    if (remedy.empty())
        remedy = "No bag mends this: shorten the arm, lower the load or take a wider base.";
    return remedy;
}

void stand_findings(const Light& light, const Stability& stability, std::vector<Finding>& found) {
    if (stability.verdict == Verdict::stable) return;
    const bool falls = stability.verdict == Verdict::unstable;
    Finding finding;
    finding.level = falls ? Level::danger : Level::warning;
    finding.code = falls ? "support-unstable" : "support-caution";
    finding.about = light.id;
    finding.message =
        stability.reasons.empty() ? (falls ? "Falls." : "Tips easily.") : stability.reasons.front();
    finding.remedy = ballast_remedy(light.support, stability);
    found.push_back(finding);
}

void rating_findings(const Light& light, const Stability& stability, std::vector<Finding>& found) {
    if (stability.load_kg > stability.load_limit_kg)
        found.push_back(
            {Level::danger, "load-over-rating", light.id,
             "Carries " + number(stability.load_kg, 1) + " kg; the stand is rated for " +
                 number(stability.load_limit_kg, 1) + " kg.",
             "Take a stand rated for the load, light, arm and counterweight together."});
    if (stability.tip_load_limit_kg > 0.0 && stability.tip_load_kg > stability.tip_load_limit_kg)
        found.push_back({Level::danger, "arm-over-rating", light.id,
                         "The arm carries " + number(stability.tip_load_kg, 1) +
                             " kg at its tip; it is rated for " +
                             number(stability.tip_load_limit_kg, 1) + " kg.",
                         "Take a heavier arm or a boom, or a lighter head and modifier."});
}

void joint_findings(const Light& light, const Stability& stability, const StabilityLimits& limits,
                    std::vector<Finding>& found) {
    if (!light.support.arm) return;
    if (stability.grip_torque_nm > limits.caution_grip_fraction * stability.grip_limit_nm) {
        const bool slips = stability.grip_torque_nm > stability.grip_limit_nm;
        found.push_back({slips ? Level::danger : Level::warning, "grip-torque", light.id,
                         "The clamp must hold " + number(stability.grip_torque_nm, 0) +
                             " N·m by friction; about " + number(stability.grip_limit_nm, 0) +
                             " N·m is what such a clamp holds.",
                         "Counterweight the tail to " +
                             number(stability.counterweight_needed_kg, 1) +
                             " kg, or shorten the arm."});
    }
    if (stability.knuckle == Knuckle::loosens)
        found.push_back({Level::warning, "knuckle-loosens", light.id,
                         "Gravity turns the clamp's knob loose.",
                         "Turn the clamp so that its knob is on the other side of the arm."});
}

void strike_findings(const Light& light, const Stability& stability, std::vector<Finding>& found) {
    for (const StrikeStep& step : stability.strike)
        if (step.verdict == Verdict::unstable && stability.verdict != Verdict::unstable)
            found.push_back(
                {Level::warning, "strike-order", light.id,
                 "Falls once the " + step.taken_off + " is off.",
                 "When striking, do not take the " + step.taken_off +
                     " off first: lower the column, hold the stand, then swing the arm in."});
}

void bag_findings(const Light& light, std::vector<Finding>& found) {
    const bool resting = std::any_of(light.support.bags.begin(), light.support.bags.end(),
                                     [](const Bag& bag) { return !bag.hanging; });
    if (resting)
        found.push_back({Level::warning, "bag-resting", light.id,
                         "A bag rests on the floor and counts as nothing.",
                         "Shorten its strap until it hangs."});
    if (light.support.base.wheels && !light.support.base.locked)
        found.push_back({Level::warning, "wheels-unlocked", light.id, "The wheels are not locked.",
                         "Lock every wheel once the stand is placed."});
}

void overhead_findings(const Studio& studio, std::size_t index, std::vector<Finding>& found) {
    const Light& light = studio.set.lights[index];
    const SupportPose& pose = studio.supports[index];
    const Landmarks& at = studio.subject->landmarks;
    const Vec2 aside(pose.tip_m.x - at.vertex.x, pose.tip_m.z - at.vertex.z);
    const double reach_m = 0.5 * std::max(light.modifier.width_m, light.modifier.depth_m) + 0.25;
    if (light.support.arm && glm::length(aside) < reach_m && pose.tip_m.y > at.vertex.y)
        found.push_back({Level::warning, "load-over-person", light.id, "Hangs over the subject.",
                         "Tether head and modifier to the arm with a short drop, and raise or "
                         "lower it only with nobody below."});
    if (light.support.arm && pose.tail_end_m.y > 1.35 && pose.tail_end_m.y < 2.0 &&
        light.support.arm->tail_m() > 0.15)
        found.push_back(
            {Level::note, "arm-end-at-head-height", light.id,
             "The free end of the arm is at head height, " + number(pose.tail_end_m.y, 2) + " m.",
             "Pad and mark it."});
}

} // namespace

void find_in_supports(const Studio& studio, const Review& review, std::vector<Finding>& found) {
    for (std::size_t i = 0; i < review.supports.size(); ++i) {
        const Light& light = studio.set.lights[i];
        const Stability& stability = review.supports[i].stability;
        stand_findings(light, stability, found);
        rating_findings(light, stability, found);
        joint_findings(light, stability, studio.set.limits, found);
        strike_findings(light, stability, found);
        bag_findings(light, found);
        overhead_findings(studio, i, found);
    }
}

} // namespace keystead
