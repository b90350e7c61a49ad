// Closed forms of tipping over one edge. e is the centre of mass's distance inside the edge, h its
// height. Textbook statics of a rigid body on a rigid, non-slip floor.
#pragma once

#include "sim/support/hull.h"
#include "sim/support/pose.h"

#include <optional>
#include <vector>

namespace keystead {

enum class Verdict { stable, caution, unstable };

struct MassSum {
    double mass_kg = 0.0;
    Vec3 com_m{0.0};
};

/// Total and centre of mass, sum(m r) / sum(m).
MassSum sum_masses(const std::vector<MassPoint>& masses);

/// Tilt of the floor that brings the centre of mass over the edge: atan(e / h); negative outside.
double tilt_to_tip_deg(double distance_m, double height_m);

/// e / h that just passes a tilt test: tan(tilt).
double required_ratio(double tilt_deg);

/// Highest centre of mass that still passes a tilt test: e / tan(tilt).
double highest_com_m(double distance_m, double tilt_deg);

/// Horizontal push, square to the edge, that lifts the far feet: m g e / h_push; 0 outside.
double push_to_tip_n(double mass_kg, double distance_m, double push_height_m);

/// How far the centre of mass must rise to go over the edge: sqrt(h² + e²) - h.
double rise_to_tip_m(double distance_m, double height_m);

/// Rolling speed that tips a base whose leading wheels stop dead: v = sqrt(2 g rise), all of the
/// kinetic energy into height. Lower than what a real body needs, hence on the safe side.
double snag_speed_m_s(double distance_m, double height_m);

/// The same for a rigid body that keeps its angular momentum about the stopped wheels:
/// v = sqrt(2 g rise I_p / (m h²)), I_p = I + m (h² + e²). `inertia_per_mass_m2` is I / m about the
/// centre of mass, along the edge.
double snag_speed_rigid_m_s(double distance_m, double height_m, double inertia_per_mass_m2);

/// Moments that hold it down over those that turn it over, about the edge; empty if none do.
std::optional<double> overturning_factor(const std::vector<MassPoint>& masses,
                                         const PolygonEdge& edge);

/// Tilt and push against the limits; a centre of mass over or outside the edge is unstable.
Verdict tipping_verdict(double margin_m, double tilt_deg, double push_n,
                        const StabilityLimits& limits);

} // namespace keystead
