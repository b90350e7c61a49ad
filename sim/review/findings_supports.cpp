// What wants attention about a stand, and what would mend it.
#include "sim/review/findings.h"
#include "sim/review/say.h"
#include "sim/support/panel_pose.h"

#include <algorithm>
#include <cmath>

namespace keystead {

namespace {

std::string counterweight_words(const Light& light, const Stability& s) {
    // Rounded down: the printed place must still be on the tail.
    const double place_m = std::floor(counterweight_place_m(light.support) * 100.0) / 100.0;
    return say::at_least(s.counterweight_needed_kg, "kg") + " of counterweight in all, " +
           say::with_unit(place_m, 2, "m") + " behind the pivot";
}

std::string bag_words(const Ballast& bag) {
    return say::at_least(bag.mass_kg, "kg") + " of bag on " + where_to_hang(bag);
}

/// The counterweight first: it mends the cause, a bag holds the effect.
std::string how_to_hold(const Light& light, const Stability& s, const Ballast& needed) {
    const bool counterweight = needs_counterweight(light, s);
    const bool bag = needed.mass_kg > 0.0 && !needed.place.empty();
    if (counterweight && bag)
        return "Put " + counterweight_words(light, s) + ", and hang " + bag_words(needed) + ".";
    if (counterweight) return "Put " + counterweight_words(light, s) + ".";
    if (bag) return "Hang " + bag_words(needed) + ".";
    if (needed.place.empty())
        return "No bag will do: bring the load nearer to the column, or take a wider base.";
    return "Bring the load nearer to the column, or lower it.";
}

/// Statics that a heavier bag would not mend have findings of their own.
bool tips(const Stability& s, const StabilityLimits& limits) {
    return s.worst_margin_m <= 0.0 || s.worst_tip_angle_deg < limits.caution_tilt_deg ||
           s.worst_push_n < limits.caution_push_n;
}

void find_tipping(const Light& light, const Stability& s, const Ballast& needed,
                  const StabilityLimits& limits, Findings& findings) {
    if (s.verdict == Verdict::stable || !tips(s, limits)) return;
    const bool unstable = s.verdict == Verdict::unstable;
    findings.push_back({unstable ? Level::danger : Level::warning,
                        unstable ? "support-unstable" : "support-caution", light.id,
                        s.reasons.empty() ? "Hardly stands." : s.reasons.front(),
                        how_to_hold(light, s, needed)});
}

void find_rating(const std::string& id, const char* what, double load, double limit,
                 double fraction, const char* code, Findings& findings) {
    if (limit <= 0.0 || load <= fraction * limit) return;
    const bool over = load > limit;
    findings.push_back({over ? Level::danger : Level::warning, code, id,
                        std::string(what) + " " + say::with_unit(load, 1, "kg") + " of the " +
                            say::with_unit(limit, 1, "kg") + " it is rated for.",
                        over ? "Take " + say::at_least(load - fraction * limit, "kg") +
                                   " off, or use a stronger one."
                             : "A lighter head or modifier leaves more in hand."});
}

void find_joints(const Light& light, const Stability& s, const StabilityLimits& limits,
                 Findings& findings) {
    if (!light.support.arm) return;
    if (s.grip_torque_nm > limits.caution_grip_fraction * s.grip_limit_nm) {
        const bool over = s.grip_torque_nm > s.grip_limit_nm;
        findings.push_back({over ? Level::danger : Level::warning, "grip-torque", light.id,
                            "The clamp must hold " + say::with_unit(s.grip_torque_nm, 0, "N·m") +
                                " by friction; about " + say::with_unit(s.grip_limit_nm, 0, "N·m") +
                                " is what it can.",
                            needs_counterweight(light, s)
                                ? "Put " + counterweight_words(light, s) + "."
                                : "Shorten the arm, or raise it steeper."});
    }
    constexpr double notable_nm = 2.0;
    if (s.knuckle == Knuckle::loosens && s.grip_torque_nm > notable_nm)
        findings.push_back({Level::warning, "knuckle-loosens", light.id,
                            "Gravity loosens the clamp.",
                            "Turn the arm over so that the knob is on the other side."});
}

void find_bags(const Light& light, Findings& findings) {
    for (std::size_t i = 0; i < light.support.bags.size(); ++i)
        if (!light.support.bags[i].hanging)
            findings.push_back(
                {Level::warning, "bag-resting", light.id,
                 "Bag " + std::to_string(i + 1) + " rests on the floor and counts as nothing.",
                 "Hang it so that it clears the floor."});
}

void find_wheels(const Light& light, const Stability& s, Findings& findings) {
    const Base& base = light.support.base;
    if (!base.wheels) return;
    if (!base.locked)
        findings.push_back({Level::warning, "wheels-unlocked", light.id, "The wheels are free.",
                            "Lock them once it stands."});
    constexpr double walking_push_m_s = 0.8;
    if (s.snag_speed_m_s > 0.0 && s.snag_speed_m_s < walking_push_m_s)
        findings.push_back({Level::note, "roll-slowly", light.id,
                            "A wheel that snags at " + say::with_unit(s.snag_speed_m_s, 1, "m/s") +
                                " tips it: that is slower than a walking push.",
                            "Lower the column before rolling it."});
}

/// The light of that id, or the panel as a load.
Light what_hangs_on(const Set& set, const std::string& id) {
    for (const Light& light : set.lights)
        if (light.id == id) return light;
    for (const Panel& panel : set.panels)
        if (panel.id == id) return as_load(panel);
    return {};
}

void find_strike(const Light& light, const Stability& s, Findings& findings) {
    if (s.verdict == Verdict::unstable) return;
    for (const StrikeStep& step : s.strike)
        if (step.verdict == Verdict::unstable)
            findings.push_back(
                {Level::note, "strike-order", light.id,
                 "Falls when the " + step.taken_off + " comes off first.",
                 step.taken_off == "light"
                     ? "Striking: counterweight off before the light."
                     : "Striking: hold the arm, light off before the counterweight."});
}

} // namespace

std::string where_to_hang(const Ballast& bag) {
    if (bag.leg < 0) return "the " + bag.place;
    return bag.place + ", " + say::with_unit(bag.at_m, 2, "m") + " from the column";
}

void find_about_supports(const Bench& bench, const Review& review, Findings& findings) {
    const StabilityLimits& limits = bench.studio.set.limits;
    for (const SupportReview& support : review.supports) {
        const Light light = what_hangs_on(bench.studio.set, support.id);
        const Stability& s = support.stability;
        find_tipping(light, s, support.needed.bag, limits, findings);
        find_rating(light.id, "The stand carries", s.load_kg, s.load_limit_kg,
                    limits.caution_load_fraction, "load-over-rating", findings);
        find_rating(light.id, "The arm's tip carries", s.tip_load_kg, s.tip_load_limit_kg,
                    limits.caution_load_fraction, "arm-over-rating", findings);
        find_joints(light, s, limits, findings);
        find_bags(light, findings);
        find_wheels(light, s, findings);
        find_strike(light, s, findings);
    }
}

} // namespace keystead
