// The review's separation along the sitter's outline against the path tracer's picture: how bright
// each side of the outline is, at the very places that the review reads.
//
// Shared by both: the scene's meshes and materials, the ray caster (Embree), the emitters and, for
// gloss, the text of shaders/shared/reflection.glsl. Not shared: how light is gathered. The review
// adds up readings (points of a light, patches of panels, bounce kept for a neighbourhood); the
// path tracer follows paths from the camera through the pixel and keeps nothing.
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
    std::vector<Vec2> inside_px, outside_px; ///< of the whole picture, for maps
};

struct EdgeComparisonOptions {
    int width_px = 960, height_px = 960; ///< of the picture whose pixels are compared
    int samples = 1024;                  ///< paths a pixel, in sixteen strata
    int bounces = 16;                    ///< as the review's paths
    bool specular = true;
};

/// The places that a review of the studio judges, in its order. Tones above white count as white,
/// as the review has it of faces of lights.
std::vector<EdgeAgreement> compare_edges(const Studio& studio,
                                         const EdgeComparisonOptions& options = {});

} // namespace keystead
