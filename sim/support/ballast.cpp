#include "sim/support/ballast.h"

#include <algorithm>
#include <cmath>

namespace keystead {

namespace {

/// A bag needs this much of a leg's length to hang clear of the floor further out.
constexpr double outermost_on_leg = 0.6;
/// Another place must save this share before it beats the simple one.
constexpr double clear_saving = 0.02;

double coefficient_m(const EdgeDemand& demand, const Vec3& position_m) {
    return distance_inside_m(demand.edge, plan(position_m)) - demand.height_factor * position_m.y;
}

/// What a kilogram shared by the places adds to the demand's sum, at its bad end.
double worst_per_kg_m(const std::vector<Vec3>& places_m, const EdgeDemand& demand,
                      double uncertainty) {
    double sum_m = 0.0;
    for (const Vec3& place : places_m) {
        const double c_m = coefficient_m(demand, place);
        sum_m += c_m - uncertainty * std::abs(c_m);
    }
    return sum_m / static_cast<double>(places_m.size());
}

/// Rounded up by a hair, so that a bag of just this mass passes the verdict it was solved for.
double enough_kg(double needed_kg) {
    return needed_kg > 0.0 ? needed_kg * (1.0 + 1e-9) + 1e-9 : 0.0;
}

Bag spot(BagPlace place, int leg, double at_m) {
    Bag bag;
    bag.place = place;
    bag.leg = leg;
    bag.at_m = at_m;
    return bag;
}

double leg_spot_m(const Base& base) {
    return std::min(Bag{}.at_m, outermost_on_leg * base.foot_radius_m);
}

/// A bag on the tail is load as well as ballast: rating and clamp must still have room for it.
bool tail_can_take(double mass_kg, const Bag& spot, const Light& light, const SupportPose& pose,
                   const StabilityLimits& limits) {
    const Arm& arm = *light.support.arm;
    double load_kg = mass_kg;
    for (const MassPoint& mass : pose.masses)
        if (mass.load) load_kg += mass.mass_kg;
    const double lever_m = spot.at_m * std::cos(radians(arm.rise_deg));
    const Joints joints = assess_joints(light, pose);
    const double held_nm =
        std::hypot(joints.balance_nm - gravity_m_s2 * mass_kg * lever_m, joints.twist_nm);
    return load_kg <= limits.caution_load_fraction * light.support.load_limit_kg &&
           held_nm <= limits.caution_grip_fraction * arm.grip_limit_nm;
}

/// Half of the bag on each of two legs.
Ballast ballast_on_two(int first, int second, const Light& light, const SupportPose& pose,
                       const std::vector<EdgeDemand>& demands, const StabilityLimits& limits) {
    const double on_leg_m = leg_spot_m(light.support.base);
    const Bag a = spot(BagPlace::leg, first, on_leg_m);
    const Bag b = spot(BagPlace::leg, second, on_leg_m);
    const auto needed_kg = mass_to_hold_kg(
        pose.masses,
        {bag_hangs_at_m(a, light.support, pose), bag_hangs_at_m(b, light.support, pose)}, demands,
        mass_uncertainty(light.support, limits));
    if (!needed_kg) return {};
    return {enough_kg(*needed_kg), spot_name(a) + " and " + spot_name(b), first, on_leg_m, second};
}

bool saves_clearly(const Ballast& candidate, const Ballast& against) {
    if (candidate.place.empty()) return false;
    return against.place.empty() || candidate.mass_kg < (1.0 - clear_saving) * against.mass_kg;
}

} // namespace

std::vector<EdgeDemand> demands_of(const std::vector<PolygonEdge>& edges, double push_height_m,
                                   const StabilityLimits& limits) {
    std::vector<EdgeDemand> demands;
    for (const PolygonEdge& edge : edges) {
        demands.push_back({edge, required_ratio(limits.caution_tilt_deg), 0.0});
        demands.push_back({edge, 0.0, limits.caution_push_n * push_height_m / gravity_m_s2});
    }
    return demands;
}

double surplus_kg_m(const std::vector<MassPoint>& masses, const EdgeDemand& demand,
                    double uncertainty) {
    double sum_kg_m = -demand.required_kg_m;
    for (const MassPoint& mass : masses) {
        const double c_m = coefficient_m(demand, mass.position_m);
        sum_kg_m += mass.mass_kg * (c_m - uncertainty * std::abs(c_m));
    }
    return sum_kg_m;
}

std::optional<double> mass_to_hold_kg(const std::vector<MassPoint>& masses,
                                      const std::vector<Vec3>& places_m,
                                      const std::vector<EdgeDemand>& demands, double uncertainty) {
    double least_kg = 0.0, most_kg = heaviest_bag_kg;
    for (const EdgeDemand& demand : demands) {
        const double sum_kg_m = surplus_kg_m(masses, demand, uncertainty);
        const double per_kg_m = worst_per_kg_m(places_m, demand, uncertainty);
        if (per_kg_m > 0.0) {
            least_kg = std::max(least_kg, -sum_kg_m / per_kg_m);
        } else if (sum_kg_m < 0.0) {
            return std::nullopt;
        } else if (per_kg_m < 0.0) {
            most_kg = std::min(most_kg, sum_kg_m / -per_kg_m);
        }
    }
    if (least_kg > most_kg) return std::nullopt;
    return least_kg;
}

std::vector<Bag> bag_spots(const Support& support) {
    const double on_leg_m = leg_spot_m(support.base);
    std::vector<Bag> spots{spot(BagPlace::column, 0, 0.0)};
    for (int leg = 0; leg < support.base.legs; ++leg)
        spots.push_back(spot(BagPlace::leg, leg, on_leg_m));
    if (support.arm && support.arm->tail_m() >= shortest_tail_m)
        spots.push_back(spot(BagPlace::tail, 0, support.arm->tail_m()));
    return spots;
}

Bag spot_there(const Support& support) {
    return support.bags.empty() ? Bag{} : support.bags.front();
}

std::string spot_name(const Bag& spot) {
    if (spot.place == BagPlace::column) return "column";
    if (spot.place == BagPlace::tail) return "tail";
    return "leg " + std::to_string(spot.leg + 1);
}

Ballast ballast_at(const Bag& spot, const Light& light, const SupportPose& pose,
                   const std::vector<EdgeDemand>& demands, const StabilityLimits& limits) {
    Ballast ballast;
    if (spot.place != BagPlace::column) ballast.at_m = spot.at_m;
    if (spot.place == BagPlace::leg) ballast.leg = spot.leg;
    const bool on_missing_arm = spot.place == BagPlace::tail && !light.support.arm;
    const auto needed_kg = mass_to_hold_kg(pose.masses, {bag_hangs_at_m(spot, light.support, pose)},
                                           demands, mass_uncertainty(light.support, limits));
    if (!needed_kg || on_missing_arm) return ballast;
    ballast.mass_kg = enough_kg(*needed_kg);
    if (spot.place != BagPlace::tail || ballast.mass_kg == 0.0 ||
        tail_can_take(ballast.mass_kg, spot, light, pose, limits))
        ballast.place = spot_name(spot);
    return ballast;
}

Ballast least_ballast(const Light& light, const SupportPose& pose,
                      const std::vector<EdgeDemand>& demands, const StabilityLimits& limits) {
    Ballast best;
    for (const Bag& spot : bag_spots(light.support)) {
        const Ballast here = ballast_at(spot, light, pose, demands, limits);
        if (saves_clearly(here, best)) best = here;
    }
    return best;
}

Ballast split_ballast(const Ballast& least, const Light& light, const SupportPose& pose,
                      const std::vector<EdgeDemand>& demands, const StabilityLimits& limits) {
    const int legs = light.support.base.legs;
    Ballast best = least;
    for (int first = 0; first < legs; ++first)
        for (int second = first + 1; second < legs; ++second) {
            const Ballast pair = ballast_on_two(first, second, light, pose, demands, limits);
            if (saves_clearly(pair, best)) best = pair;
        }
    return best.second_leg >= 0 ? best : Ballast{};
}

double mass_uncertainty(const Support& support, const StabilityLimits& limits) {
    return support.measured_masses ? 0.0 : limits.mass_uncertainty;
}

} // namespace keystead
