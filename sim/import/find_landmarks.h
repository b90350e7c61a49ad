// Landmarks of an imported head: found on its shape, or placed by hand.
#pragma once

#include "sim/base/mesh.h"
#include "sim/base/vec.h"

#include <optional>
#include <string>

namespace keystead {

/// One landmark on an imported head.
struct HeadPoint {
    Vec3 point_m{0.0};
    double confidence = 0.0; ///< 0..1; 1 where a hand placed it
    bool by_hand = false;
};

/// What everything else needs of a head. Absent: not found and not placed. Left is the subject's.
struct HeadLandmarks {
    std::optional<HeadPoint> nose_tip, pupil_left, pupil_right, chin, top;
    /// Where the face looks: azimuth about Y from +Z toward +X. Absent as the nose is.
    std::optional<double> facing_deg;
    std::string remark; ///< one sentence: what was found, or why not

    bool complete() const { return nose_tip && pupil_left && pupil_right && chin && top; }
};

/// Looks for a face on a mesh in metres with Y up, turned any way about Y: the view in which a
/// nose-sized ridge stands out of the most symmetric surface; then chin, eye sockets and top from
/// the profile and the relief beside it. Works on a head, a bust or a standing figure. Sizes are
/// those of people from about six years up. Says what it is unsure of; finds nothing on things.
/// The method and its thresholds are our own; the distances it allows follow ANSUR II.
HeadLandmarks find_head_landmarks(const Mesh& mesh);

/// Landmarks placed in the window, metres, in the frame of the converted mesh; what is not placed
/// is absent.
struct PlacedLandmarks {
    std::optional<Vec3> nose_tip_m, pupil_left_m, pupil_right_m, chin_m, top_m;
};

/// The found ones with those placed by hand in their stead. The facing follows the pupils and the
/// nose if all three are placed.
HeadLandmarks with_placed(HeadLandmarks found, const PlacedLandmarks& placed);

} // namespace keystead
