// How heavy a bag must be, and where it does most.
#pragma once

#include "sim/support/joints.h"
#include "sim/support/tipping.h"

#include <optional>
#include <string>
#include <vector>

namespace keystead {

/// What a bag would have to be.
struct Ballast {
    double mass_kg = 0.0; ///< extra mass needed; 0 when none is
    std::string place;    ///< "leg 2", "column", "tail"; empty when no place can do it
    int leg = -1;         ///< counted from 0; -1 unless on a leg
    double at_m = 0.0;    ///< as Bag::at_m
    int second_leg = -1;  ///< half of the mass hangs on this leg, at the same place; else -1
};

/// One condition on the whole support about one edge: sum(m c) >= required, with c = d - k h,
/// d inside the edge and h the height. Tilt test: k = tan(tilt), required 0. Push test: k = 0,
/// required F h_push / g.
struct EdgeDemand {
    PolygonEdge edge;
    double height_factor = 0.0;
    double required_kg_m = 0.0;
};

/// Heavier bags than this are no answer.
inline constexpr double heaviest_bag_kg = 60.0;

/// The verdict's own thresholds (out of caution, for tilt and for push) about every edge.
std::vector<EdgeDemand> demands_of(const std::vector<PolygonEdge>& edges, double push_height_m,
                                   const StabilityLimits& limits);

/// sum(m c) - required with every mass at the end of 1 ± `uncertainty` that lowers it.
double surplus_kg_m(const std::vector<MassPoint>& masses, const EdgeDemand& demand,
                    double uncertainty);

/// Least extra mass, shared evenly by `places_m`, that meets every demand; empty if no mass there
/// does. A bag that helps at one edge can harm at another, so each edge gives a lower or an upper
/// bound. For one edge, k = 0 and certain masses it is the textbook (overturning - holding) /
/// lever.
std::optional<double> mass_to_hold_kg(const std::vector<MassPoint>& masses,
                                      const std::vector<Vec3>& places_m,
                                      const std::vector<EdgeDemand>& demands, double uncertainty);

/// Where a bag could hang: column, each leg, and the tail if there is one. Masses are not set.
std::vector<Bag> bag_spots(const Support& support);

/// Where the document's first bag hangs (or would, if it were lifted off the floor); without bags,
/// where a new one starts.
Bag spot_there(const Support& support);

/// "column", "leg 1" (counted from 1), "tail".
std::string spot_name(const Bag& spot);

/// The bag needed at `spot`. Its `place` is empty if none up to `heaviest_bag_kg` does it, or, on
/// the tail, if clamp or rating could not take it.
Ballast ballast_at(const Bag& spot, const Light& light, const SupportPose& pose,
                   const std::vector<EdgeDemand>& demands, const StabilityLimits& limits);

/// The best of `bag_spots`; the column where nothing is clearly better.
Ballast least_ballast(const Light& light, const SupportPose& pose,
                      const std::vector<EdgeDemand>& demands, const StabilityLimits& limits);

/// The best of halves on two legs, where that saves clearly against `least`; else no place.
Ballast split_ballast(const Ballast& least, const Light& light, const SupportPose& pose,
                      const std::vector<EdgeDemand>& demands, const StabilityLimits& limits);

/// What the document's masses may be off by: nothing once they are measured.
double mass_uncertainty(const Support& support, const StabilityLimits& limits);

} // namespace keystead
