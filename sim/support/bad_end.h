// The verdict's pessimism: every mass may be off by a stated fraction, each to its own bad side.
// For one edge the worst mixture is found exactly, not by making everything heavier.
#pragma once

#include "sim/support/tipping.h"

#include <vector>

namespace keystead {

/// One mass seen from one edge.
struct Lever {
    double mass_kg = 0.0;
    double distance_m = 0.0; ///< inside the edge, negative outside
    double height_m = 0.0;
};

/// Levers of all masses about an edge.
std::vector<Lever> levers_about(const std::vector<MassPoint>& masses, const PolygonEdge& edge);

struct BadEnd {
    double margin_m = 0.0;
    double tilt_deg = 0.0;
    double push_n = 0.0;
};

/// Smallest sum(m d) / sum(m) over masses within 1 ± `uncertainty`. The mixture that minimises a
/// ratio of linear forms N/D minimises N - q D at the ratio q it reaches (Dinkelbach 1967); each
/// mass then sits at the end its own term asks for, and q falls until nothing changes.
double least_margin_m(const std::vector<Lever>& levers, double uncertainty);

/// The same for sum(m d) / sum(m h), as a tilt.
double least_tilt_deg(const std::vector<Lever>& levers, double uncertainty);

/// Smallest g sum(m d) / h_push: masses inside the edge light, those outside heavy; at least 0.
double least_push_n(const std::vector<Lever>& levers, double push_height_m, double uncertainty);

/// Worst of each over all edges; zero without edges.
BadEnd bad_end(const std::vector<MassPoint>& masses, const std::vector<PolygonEdge>& edges,
               double push_height_m, double uncertainty);

} // namespace keystead
