#include "sim/support/wording.h"

#include "sim/base/frames.h"

#include <array>
#include <cmath>
#include <cstdio>

namespace keystead {

namespace {

/// A lamp that misses the subject by more than this falls past them.
constexpr double at_subject_deg = 35.0;
/// A loosening clamp is news only where it holds a good part of what it can.
constexpr double notable_share = 0.3;

std::string number(double value, int decimals) {
    std::array<char, 32> text{};
    std::snprintf(text.data(), text.size(), "%.*f", decimals, value);
    return text.data();
}

std::string percent(double fraction) {
    return number(100.0 * fraction, 0) + " %";
}

std::string newtons(double force_n) {
    return number(force_n, force_n < 10.0 ? 1 : 0) + " N";
}

/// " (8.2° if the masses are 10 % off)", or nothing once they are measured.
std::string if_off(const std::string& value, const Support& support,
                   const StabilityLimits& limits) {
    const double off = mass_uncertainty(support, limits);
    return off > 0.0 ? " (" + value + " if the masses are " + percent(off) + " off)" : "";
}

std::string falls(const Stability& s, const std::string& toward) {
    return "Falls " + toward + ": the load is " + number(-s.margin_m, 2) + " m outside the feet.";
}

std::string could_fall(const Stability& s, const std::string& toward,
                       const StabilityLimits& limits) {
    return "Could fall " + toward + ": the load is only " + number(s.margin_m, 2) +
           " m inside the feet, less than masses " + percent(limits.mass_uncertainty) +
           " off would shift it.";
}

std::string tilts(const Stability& s, const std::string& toward, const Support& support,
                  const StabilityLimits& limits) {
    return "Tips " + toward + " at a tilt of " + number(s.tip_angle_deg, 1) + "°" +
           if_off(number(s.worst_tip_angle_deg, 1) + "°", support, limits) + ".";
}

std::string pushed(const Stability& s, const std::string& toward, const Support& support,
                   const StabilityLimits& limits) {
    return "A push of " + newtons(s.push_to_tip_n) + " at " + number(s.push_height_m, 2) +
           " m tips it " + toward + if_off(newtons(s.worst_push_n), support, limits) + ".";
}

/// "The stand carries 6.1 kg of the 7.0 kg it is rated for.", or over it.
std::string against_rating(const std::string& carries, double value_kg, double limit_kg) {
    if (value_kg > limit_kg)
        return "Overloaded: " + carries + " " + number(value_kg, 1) + " kg and is rated for " +
               number(limit_kg, 1) + " kg.";
    std::string sentence = carries + " " + number(value_kg, 1) + " kg of the " +
                           number(limit_kg, 1) + " kg it is rated for.";
    sentence.front() = 'T';
    return sentence;
}

std::string against_grip(double torque_nm, double limit_nm) {
    const std::string held = number(torque_nm, 1) + " N·m";
    const std::string limit = number(limit_nm, 0) + " N·m";
    if (torque_nm > limit_nm)
        return "The clamp slips: it would have to hold " + held + " and holds about " + limit + ".";
    return "The clamp must hold " + held + " of the " + limit + " it holds at most.";
}

void mention_resting_bags(std::vector<std::string>& reasons, const Support& support) {
    for (std::size_t i = 0; i < support.bags.size(); ++i)
        if (!support.bags[i].hanging)
            reasons.push_back("Bag " + std::to_string(i + 1) +
                              " rests on the floor and counts as nothing: hang it.");
}

} // namespace

std::string toward_words(double azimuth_deg, const Vec2& from_m) {
    const double to_subject_deg = degrees(std::atan2(-from_m.x, -from_m.y));
    if (glm::length(from_m) > 1e-6 &&
        std::abs(wrapped_deg(azimuth_deg - to_subject_deg)) <= at_subject_deg)
        return "toward the subject";
    const double wrapped = wrapped_deg(azimuth_deg);
    if (std::abs(wrapped) <= 45.0) return "toward the camera";
    if (std::abs(wrapped) >= 135.0) return "toward the background";
    return wrapped > 0.0 ? "toward camera right" : "toward camera left";
}

std::vector<std::string> tipping_reasons(const Stability& result, const Support& support,
                                         const StabilityLimits& limits) {
    const std::string toward = toward_words(result.tip_direction_deg, support.base.position_m);
    std::vector<std::string> reasons;
    if (result.edges.empty()) return {"Has no three feet to stand on."};
    if (result.margin_m <= 0.0)
        reasons.push_back(falls(result, toward));
    else if (result.worst_margin_m <= 0.0)
        reasons.push_back(could_fall(result, toward, limits));
    else if (result.worst_tip_angle_deg < limits.caution_tilt_deg)
        reasons.push_back(tilts(result, toward, support, limits));
    if (result.worst_margin_m > 0.0 && result.worst_push_n < limits.caution_push_n)
        reasons.push_back(pushed(result, toward, support, limits));
    if (!reasons.empty()) mention_resting_bags(reasons, support);
    return reasons;
}

std::vector<std::string> joint_reasons(const Stability& result, const StabilityLimits& limits) {
    std::vector<std::string> reasons;
    if (result.load_kg > limits.caution_load_fraction * result.load_limit_kg)
        reasons.push_back(
            against_rating("the stand carries", result.load_kg, result.load_limit_kg));
    if (result.tip_load_kg > limits.caution_load_fraction * result.tip_load_limit_kg)
        reasons.push_back(
            against_rating("the arm's tip carries", result.tip_load_kg, result.tip_load_limit_kg));
    if (result.grip_torque_nm > limits.caution_grip_fraction * result.grip_limit_nm)
        reasons.push_back(against_grip(result.grip_torque_nm, result.grip_limit_nm));
    if (result.knuckle == Knuckle::loosens &&
        std::abs(result.balance_nm) > notable_share * result.grip_limit_nm)
        reasons.push_back("Gravity loosens the clamp: turn the arm over so that the knob is on "
                          "the other side.");
    return reasons;
}

} // namespace keystead
