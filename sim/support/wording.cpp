#include "sim/support/wording.h"

#include "sim/base/frames.h"

#include <array>
#include <cmath>
#include <cstdio>

namespace keystead {

namespace {

/// A lamp that misses the subject by more than this falls past them.
constexpr double at_subject_deg = 35.0;
/// A loosening clamp that hardly carries anything is no news.
constexpr double notable_loosening_nm = 2.0;

std::string number(double value, int decimals) {
    std::array<char, 32> text{};
    std::snprintf(text.data(), text.size(), "%.*f", decimals, value);
    return text.data();
}

std::string percent(double fraction) {
    return number(100.0 * fraction, 0) + " %";
}

/// "6.1 kg of 8.0 kg", with what that means.
std::string against_limit(const std::string& what, double value, double limit, const char* unit) {
    return what + " " + number(value, 1) + " " + unit + " of the " + number(limit, 1) + " " + unit +
           " it is rated for.";
}

std::string masses_off(const Support& support, const StabilityLimits& limits) {
    return support.measured_masses
               ? std::string()
               : " with masses " + percent(limits.mass_uncertainty) + " to the bad side";
}

std::string falls(const Stability& s, const std::string& toward) {
    return "Falls " + toward + ": the load is " + number(-s.margin_m, 2) + " m outside the feet.";
}

std::string tilts(const Stability& s, const std::string& toward, const Support& support,
                  const StabilityLimits& limits) {
    return "Tips " + toward + " when the floor tilts " + number(s.worst_tip_angle_deg, 1) + "°" +
           masses_off(support, limits) + " (" + number(s.tip_angle_deg, 1) + "° as written).";
}

std::string pushed(const Stability& s, const std::string& toward, const Support& support,
                   const StabilityLimits& limits) {
    return "A push of " + number(s.worst_push_n, 0) + " N at " + number(s.push_height_m, 2) +
           " m tips it " + toward + masses_off(support, limits) + " (" +
           number(s.push_to_tip_n, 0) + " N as written).";
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
        reasons.push_back("Falls " + toward + masses_off(support, limits) + ": only " +
                          number(result.margin_m, 2) + " m inside the feet as written.");
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
            against_limit("The stand carries", result.load_kg, result.load_limit_kg, "kg"));
    if (result.tip_load_kg > limits.caution_load_fraction * result.tip_load_limit_kg)
        reasons.push_back(against_limit("The arm carries at its tip", result.tip_load_kg,
                                        result.tip_load_limit_kg, "kg"));
    if (result.grip_torque_nm > limits.caution_grip_fraction * result.grip_limit_nm)
        reasons.push_back(against_limit("The clamp must hold", result.grip_torque_nm,
                                        result.grip_limit_nm, "N·m"));
    if (result.knuckle == Knuckle::loosens && result.grip_torque_nm > notable_loosening_nm)
        reasons.push_back("Gravity loosens the clamp: turn the arm over so that the knob is on "
                          "the other side.");
    return reasons;
}

} // namespace keystead
