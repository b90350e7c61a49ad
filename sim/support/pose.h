// Where every part of a support is: feet, column, arm, counterweight, bags, head, emitting face.
//
// Model. Leg 0 stands at the base's turn, the others follow evenly with growing azimuth. The arm
// pivots on top of the column. The light hangs from its tilt bracket, which sits at the middle of
// the head, at the arm's tip (on top of the column without an arm); its beam leaves the bracket
// along the head, so the emitting face is half a head length plus the modifier's depth ahead. The
// bracket has no height of its own. A hanging bag is drawn on its strap below the point it hangs
// from, but its weight is counted at that point: a body that swings free loads its support exactly
// there. Any posture is posed; ranges are the document's business (validate()).
#pragma once

#include "sim/base/vec.h"
#include "sim/set/set.h"

#include <string>
#include <vector>

namespace keystead {

/// Where a light looks: at a point of the room, or along a fixed direction.
struct AimTarget {
    bool is_direction = false;
    Vec3 point_m{0.0};
    Vec3 direction{0.0, 0.0, -1.0}; ///< unit, used when `is_direction`
    /// Then turned about the vertical, clockwise seen from above: toward camera right for a light
    /// on the camera's side of the subject. The sense does not flip as a light goes round the
    /// subject.
    double feather_deg = 0.0;
};

struct MassPoint {
    std::string part; ///< base, column, clamp, arm, head, modifier, grid, counterweight, bag 1 …
    double mass_kg = 0.0;
    Vec3 position_m{0.0};
    /// Carried on top of the column (clamp, arm, light, counterweight, tail bags): counts against
    /// the stand's rating.
    bool load = false;
};

/// A support in the room. All points in metres, room frame.
struct SupportPose {
    Vec3 hub_m{0.0};         ///< where the legs meet the column
    Vec3 column_top_m{0.0};  ///< mounting point; the arm's pivot where there is an arm
    Vec3 tip_m{0.0};         ///< the light's tilt bracket (= column_top_m without an arm)
    Vec3 tail_end_m{0.0};    ///< free end of the arm behind the pivot
    Vec3 arm_direction{0.0}; ///< unit, pivot to tip; zero without an arm
    Vec3 beam_direction{0.0, 0.0, -1.0}; ///< unit, out of the modifier
    Mat3 head_axes{1.0};      ///< right, up, forward (= beam), turned by modifier.turn_deg
    Vec3 emitter_m{0.0};      ///< centre of the emitting face
    std::vector<Vec3> feet_m; ///< nominal floor contacts (wheels: under the caster pivots)
    std::vector<Vec3> bags_m; ///< centre of each bag, in the order of the document
    Vec3 counterweight_m{0.0};
    std::vector<MassPoint> masses; ///< a bag resting on the floor is listed with zero mass
};

/// Unit direction of a beam from the bracket at `bracket_m`; toward the background if the target
/// is the bracket itself.
Vec3 beam_toward(const Vec3& bracket_m, const AimTarget& target);

/// Tilt bracket to the centre of the emitting face, along the beam. A lip stands further out. The
/// rim of a reflecting umbrella is behind the lamp: negative.
double face_ahead_m(const Light& light);

/// Where the strap of `bag` would be on this support, whether or not the bag is in the document.
Vec3 bag_hangs_at_m(const Bag& bag, const Support& support, const SupportPose& pose);

/// Poses the whole chain for a light aimed at `target`.
SupportPose pose_support(const Light& light, const AimTarget& target);

} // namespace keystead
