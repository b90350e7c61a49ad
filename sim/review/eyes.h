// What the eyes show: how much of each light a pupil sees, what hides the rest, and what the camera
// sees mirrored in the cornea.
#pragma once

#include "sim/base/vec.h"

#include <string>
#include <vector>

namespace keystead {

/// Something between a pupil and a light.
struct EyeHider {
    /// brow, lid, nose, hair, hat, glasses (their frame), face (any other part of the sitter), or
    /// the id of the light or panel whose gear it is; "room" for anything else.
    std::string what;
    double percent = 0.0; ///< of the light's face
};

/// One light as one pupil sees it. What is neither seen nor hidden lies behind the eye.
struct EyeLight {
    std::string light;
    double seen_percent = 0.0;    ///< of its face, weighed by what each part sends to the eye
    std::vector<EyeHider> hiders; ///< most first
};

/// A light or a lit panel mirrored in one cornea, as the picture shows it.
struct CatchlightReview {
    std::string source; ///< light or panel id
    bool panel = false;
    double clock = 12.0;       ///< hours about the pupil's middle
    Vec2 from_pupil_mm{0.0};   ///< to the right and up in the picture
    Vec2 size_mm{0.0};         ///< across and up in the picture
    double seen_percent = 0.0; ///< of the face of the light; lids, brow, nose or gear hide the rest
    std::string shape;         ///< round, ring, square, strip, eight-sided
    double value_8bit = 0.0;   ///< how bright it comes out over a black pupil, 0..255
    double stops_from_brightest = 0.0; ///< of this eye's
};

struct EyeReview {
    std::string eye;                           ///< left, right: the subject's
    double light_visible_percent = 0.0;        ///< of the key
    bool in_view = true;                       ///< does the camera see the pupil?
    std::vector<EyeLight> lights;              ///< those that are on and shine that way
    std::vector<CatchlightReview> catchlights; ///< largest first
};

} // namespace keystead
