// The subject's outline as the camera sees it: what lies just inside it and just outside.
#pragma once

#include "sim/review/bench.h"
#include "sim/review/gloss.h"

#include <string>
#include <vector>

namespace keystead {

struct EdgeSide {
    std::string owner, part; ///< of the scene's piece
    std::vector<SurfacePoint> points;
    std::vector<GlossyPoint> glossy; ///< the same points as they answer toward the camera
    double tone = 0.0;               ///< mean, see tone.h
    double gloss = 0.0;              ///< of that, what the surface mirrors
};

struct Edge {
    std::string place; ///< head_top, hair_left, ear_left, shoulder_left, arm_left, …
    EdgeSide inside, outside;
};

/// Head first; places that the picture does not show, or that gear stands before, are left out.
std::vector<Edge> edges_of(const Bench& bench);

/// The same as a review of this studio finds them, for whoever wants to look at the places.
std::vector<Edge> outline_edges(const Studio& studio);

} // namespace keystead
