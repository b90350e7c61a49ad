// The review's separation along the sitter's outline against the path tracer's picture: how bright
// each side of the outline is, at the very places that the review reads.
//
// The path tracer leaves out single strands of hair, and so does the review. Shared by both: the
// scene's meshes and materials, the ray caster (Embree), the emitters and, for gloss, the text of
// shaders/shared/reflection.glsl. Not shared: how light is gathered. The review adds up readings
// (points of a light, patches of panels, bounce kept for a neighbourhood); the path tracer follows
// paths from the camera through the pixel and keeps nothing.
#pragma once

#include "sim/studio/studio.h"
#include "sim/transport/view.h"

#include <memory>
#include <string>
#include <vector>

namespace keystead {

/// One side of a place, stops from an 18 % card at the camera's setting.
struct SideAgreement {
    std::string is; ///< owner and part
    double review_stops = 0.0, picture_stops = 0.0;
    double error_stops = 0.0; ///< standard error of the picture's
    double off() const { return review_stops - picture_stops; }
};

struct EdgeAgreement {
    std::string place;
    SideAgreement inside, outside;
    /// Of the step from outside to inside, which is what the review judges.
    double review_step() const { return inside.review_stops - outside.review_stops; }
    double picture_step() const { return inside.picture_stops - outside.picture_stops; }
    double off() const { return review_step() - picture_step(); }
    std::vector<Vec2> inside_at, outside_at; ///< shares of the picture from its top left, for maps
};

struct EdgeComparisonOptions {
    /// Of the picture whose pixels are compared: as fine as common cameras' (24 million pixels). A
    /// coarse pixel near the outline mixes what lies on either side of it.
    int width_px = 6000, height_px = 6000;
    int samples = 256; ///< paths a pixel, in sixteen strata; five pixels a point
    int bounces = 16;  ///< more change nothing
};

/// The places that a review of the studio judges, in its order. Tones above white count as white,
/// as the review has it of faces of lights.
std::vector<EdgeAgreement> compare_edges(const Studio& studio,
                                         const EdgeComparisonOptions& options = {});

} // namespace keystead
