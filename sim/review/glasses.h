// What the camera sees mirrored in the lenses of glasses.
#pragma once

#include "sim/base/frames.h"

#include <optional>
#include <string>
#include <vector>

namespace keystead {

/// Where one lens looks: directions that its surface mirrors to the camera, seen from the lens.
struct LensMirror {
    std::string lens;                                ///< left, right: the subject's
    Angles middle;                                   ///< that the lens's middle mirrors, room frame
    double half_across_deg = 0.0, half_up_deg = 0.0; ///< how far curvature widens that
};

/// A light or panel that shows in a lens.
struct GlareReview {
    std::string lens, source; ///< source: light or panel id
    bool panel = false;
    double area_percent = 0.0; ///< of the lens as the camera sees it
    double value_8bit = 0.0;   ///< how bright its mirror image comes out over black, 0..255
    /// How far the source must go round the lens, that way, until nothing of it shows; nothing
    /// within 60 degrees. Left and right are the camera's.
    std::optional<double> clear_up_deg, clear_down_deg, clear_left_deg, clear_right_deg;
};

struct GlassesReview {
    std::vector<LensMirror> lenses; ///< empty: none worn, or turned away
    std::vector<GlareReview> glare; ///< largest first
    /// How far the frame must tip, lenses down (+), so that no lens shows anything; nothing within
    /// 15 degrees either way, or where nothing shows.
    std::optional<double> clear_by_tilt_deg;
};

} // namespace keystead
