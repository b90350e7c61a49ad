// The Bullet physics library (a general-purpose rigid-body engine) as a judge of tipping that
// shares no formula with the project: it is given masses and feet, and asked whether the thing
// fell.
#pragma once

#include "sim/support/pose.h"

namespace judge {

struct Load {
    double tilt_deg = 0.0;      ///< of the floor, done by turning gravity
    double push_n = 0.0;        ///< horizontal force on the body
    double push_height_m = 0.0; ///< at this height on the column's axis
    double azimuth_deg = 0.0;   ///< which way it is tilted or pushed
};

/// Whether the posed support falls over: the load is brought on within a second and then held for
/// five. (A slow ramp to the end would be biased: a body falls late, by its own inertia.)
bool falls(const keystead::SupportPose& pose, const Load& load);

} // namespace judge
