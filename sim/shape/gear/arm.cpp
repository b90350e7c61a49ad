// The rod on top of a column: grip head with arm, or pivot with boom tube.

#include "sim/shape/build/solids.h"
#include "sim/shape/gear/gear.h"
#include "sim/shape/materials.h"

#include <algorithm>
#include <cmath>

namespace keystead::gear {

namespace {

using build::bar;
using build::drum;

/// A boom is a tube with a sleeve; shorter rods are the solid arm of a grip head.
bool is_boom(const Support& support) {
    return support.kind == SupportKind::boom || support.arm->length_m > 1.3;
}

void add_pivot(PartList& list, const Support& support, const SupportPose& pose, const Vec3& right,
               double disc_radius_m, double gap_m) {
    const Vec3 pivot = pose.column_top_m;
    const double hand = support.arm->knob_on_right ? 1.0 : -1.0;
    for (const double side : {-1.0, 1.0})
        list.add(
            "clamp", materials::aluminium(),
            drum(pivot + right * (side * (gap_m + 0.009)), right, disc_radius_m, 0.018, 24, 0.003));
    list.add("clamp", materials::aluminium(), drum(pivot, right, 0.014, 2.0 * gap_m + 0.004, 12));
    // Socket on the column, with its own screw on the far side of the handle.
    list.add("clamp", materials::aluminium(),
             build::chamfered_box(build::standing(pivot - Vec3(0, disc_radius_m + 0.018, 0),
                                                  angles_of(right).azimuth_deg),
                                  {0.020, 0.020, 0.030}, 0.005));
    add_tee_knob(list, "clamp", pivot - Vec3(0, disc_radius_m + 0.022, 0) - right * (hand * 0.020),
                 -right * hand, {0, 1, 0}, 1.0);
    const Vec3 root = pivot + right * (hand * (gap_m + 0.017));
    const Vec3 end = root + right * (hand * 0.058);
    const Vec3 bar_direction = glm::normalize(Vec3(0, 0.86, 0) + pose.arm_direction * 0.5);
    list.add("clamp", materials::aluminium(), bar(root, end, 0.006, 10));
    list.add("clamp", materials::aluminium(),
             bar(end - bar_direction * 0.046, end + bar_direction * 0.046, 0.0065, 10));
}

/// From the rod's end to a yoke that is not straight ahead of it.
void add_link(PartList& list, const Vec3& rod_end_m, const Vec3& yoke_m, const Vec3& direction,
              double radius_m) {
    list.add("arm", materials::aluminium(),
             drum(rod_end_m, direction, radius_m + 0.004, 0.036, 14, 0.002));
    if (glm::distance(rod_end_m, yoke_m) < 0.008) return;
    list.add("arm", materials::aluminium(), bar(rod_end_m, yoke_m, 0.008, 10));
}

} // namespace

void add_arm(PartList& list, const Support& support, const SupportPose& pose, const Vec3& end_m,
             double free_m) {
    const Vec3 d = pose.arm_direction;
    const Vec3 level = glm::cross(d, Vec3(0, 1, 0));
    const Vec3 right = glm::length(level) > 1e-6 ? glm::normalize(level) : Vec3(1, 0, 0);
    const Vec3 pivot = pose.column_top_m;
    const bool boom = is_boom(support);
    const double radius = boom ? 0.0165 : 0.008;
    const double tail = std::max(0.05, glm::distance(pivot, pose.tail_end_m));
    // Short of the lamp's side where the yoke is turned away from the rod.
    const double ahead = std::max(0.05, std::min(glm::dot(end_m - pivot, d), free_m));
    const Vec3 tail_end = pivot - d * tail;
    const Vec3 end = pivot + d * ahead;
    list.add("arm", boom ? materials::aluminium() : materials::chrome(),
             bar(tail_end, end, radius, boom ? 16 : 12));
    add_link(list, end, end_m, d, radius);
    list.add("arm", materials::plastic(), drum(tail_end, d, radius + 0.0025, 0.030, 14, 0.002));
    if (boom) {
        const double back = std::min(0.45, 0.8 * tail);
        const double front = std::min(0.45, 0.8 * ahead);
        list.add("arm", materials::chrome(), bar(pivot - d * back, pivot + d * front, 0.0195, 16));
        list.add("arm", materials::plastic(), drum(pivot + d * front, d, 0.024, 0.040, 16, 0.003));
        add_tee_knob(list, "arm", pivot + d * front + right * 0.022, right, d, 0.9);
    }
    add_pivot(list, support, pose, right, boom ? 0.042 : 0.034, radius + 0.001);
}

} // namespace keystead::gear
