// What stands on the floor: braced tripods, bent century-stand legs, wheeled legs.

#include "sim/shape/build/solids.h"
#include "sim/shape/build/sweep.h"
#include "sim/shape/gear/gear.h"
#include "sim/shape/materials.h"

#include <algorithm>
#include <cmath>

namespace keystead::gear {

namespace {

using build::bar;
using build::drum;
using build::Frame;

constexpr double wheel_radius_m = 0.050;
constexpr double wheel_width_m = 0.028;
constexpr double caster_top_m = 0.135;

enum class LegStyle { braced, bent, straight };

LegStyle style_of(const Support& support) {
    if (support.base.wheels) return LegStyle::straight;
    return support.kind == SupportKind::century ? LegStyle::bent : LegStyle::braced;
}

/// Unit horizontal direction from the column's axis to a foot.
Vec3 outward(const Vec3& axis_m, const Vec3& foot_m) {
    const Vec3 flat(foot_m.x - axis_m.x, 0.0, foot_m.z - axis_m.z);
    return glm::length(flat) > 1e-6 ? glm::normalize(flat) : Vec3(0, 0, 1);
}

/// Century legs nest: each leaves the column at its own height.
double bent_hub_m(double hub_m, std::size_t leg) {
    return std::max(0.055, hub_m - 0.040 * static_cast<double>(leg % 3));
}

Leg bent_leg(const Vec3& axis_m, const Vec3& foot_m, double hub_m) {
    const Vec3 out = outward(axis_m, foot_m);
    const double reach = glm::distance(Vec2(axis_m.x, axis_m.z), Vec2(foot_m.x, foot_m.z));
    const auto at = [&](double part, double height_m) {
        return Vec3(axis_m.x, height_m, axis_m.z) + out * (part * reach);
    };
    return {build::smooth_path({at(0.03, hub_m), at(0.30, hub_m), at(0.60, 0.97 * hub_m),
                                at(0.78, 0.74 * hub_m), at(0.98, 0.016)},
                               4),
            0.0125};
}

Leg straight_leg(const Vec3& axis_m, const Vec3& foot_m, double hub_m, double start_m,
                 double end_height_m, double radius_m) {
    const Vec3 out = outward(axis_m, foot_m);
    return {
        {Vec3(axis_m.x, hub_m, axis_m.z) + out * start_m, Vec3(foot_m.x, end_height_m, foot_m.z)},
        radius_m};
}

Vec3 along(const Leg& leg, double part) {
    return glm::mix(leg.path_m.front(), leg.path_m.back(), part);
}

void add_rubber_foot(PartList& list, const Vec3& foot_m, double radius_m) {
    list.add("legs", materials::rubber(),
             build::lathe(build::standing(Vec3(foot_m.x, 0, foot_m.z), 0.0),
                          {{0, 0},
                           {radius_m * 1.25, 0},
                           {radius_m * 1.45, 0.006},
                           {radius_m * 1.30, 0.030},
                           {radius_m * 0.6, 0.036},
                           {0, 0.036}},
                          10));
}

void add_braced_legs(PartList& list, const Support& support, const SupportPose& pose,
                     const std::vector<Leg>& legs) {
    const Material tube = stand_material(support.kind);
    const Vec3 axis = pose.hub_m;
    const double tube_radius = 0.5 * support.column.tube_diameter_m;
    const double spreader_m = std::max(0.045, 0.40 * axis.y);
    const Vec3 up(0, 1, 0);
    for (const auto& [height, size] : {std::pair(axis.y, 0.050), std::pair(spreader_m, 0.034)})
        list.add("legs", materials::plastic(),
                 drum({axis.x, height, axis.z}, up, tube_radius + 0.011, size, 16, 0.004));
    for (std::size_t i = 0; i < legs.size(); ++i) {
        const Vec3 out = outward(axis, pose.feet_m[i]);
        const Vec3 side = glm::cross(up, out);
        const Vec3 joint = along(legs[i], 0.52);
        list.add("legs", tube, bar(legs[i].path_m.front(), legs[i].path_m.back(), 0.010, 10));
        list.add("legs", materials::plastic(), drum(joint, side, 0.014, 0.030, 8));
        for (const double hand : {-1.0, 1.0}) {
            const Vec3 offset = side * (0.012 * hand);
            list.add("legs", tube,
                     bar(Vec3(axis.x, spreader_m, axis.z) + out * (tube_radius + 0.008) + offset,
                         joint + offset, 0.0045, 6));
        }
        add_rubber_foot(list, pose.feet_m[i], 0.010);
    }
    const Vec3 knob_out = direction_from({support.base.turn_deg + 62.0, 0.0});
    add_tee_knob(list, "legs", axis + knob_out * (tube_radius + 0.010), knob_out, up, 0.9);
}

void add_bent_legs(PartList& list, const Support& support, const SupportPose& pose,
                   const std::vector<Leg>& legs) {
    const Material tube = stand_material(support.kind);
    const double tube_radius = 0.5 * support.column.tube_diameter_m;
    for (std::size_t i = 0; i < legs.size(); ++i) {
        const double hub = bent_hub_m(pose.hub_m.y, i);
        list.add("legs", tube, build::rod(legs[i].path_m, legs[i].radius_m, 10));
        list.add("legs", materials::aluminium(),
                 drum({pose.hub_m.x, hub, pose.hub_m.z}, {0, 1, 0}, tube_radius + 0.010, 0.036, 16,
                      0.004));
        add_rubber_foot(list, pose.feet_m[i], legs[i].radius_m);
    }
    const Vec3 knob_out = direction_from({support.base.turn_deg + 58.0, 0.0});
    add_tee_knob(list, "legs", pose.hub_m + knob_out * (tube_radius + 0.008), knob_out, {0, 1, 0},
                 1.1);
}

/// A swivelling wheel; its contact trails the pivot by the document's caster offset.
void add_caster(PartList& list, const Base& base, const Vec3& pivot_m, double trail_deg) {
    const Vec3 trail = direction_from({trail_deg, 0.0});
    const Vec3 axle_direction = glm::cross(Vec3(0, 1, 0), trail);
    const Vec3 pivot(pivot_m.x, 0.0, pivot_m.z);
    const Vec3 axle = pivot + trail * base.caster_offset_m + Vec3(0, wheel_radius_m, 0);
    const Vec3 crown = pivot + Vec3(0, 0.108, 0);
    const Frame wheel = build::facing(axle, axle_direction);
    const double half = 0.5 * wheel_width_m;
    const double r = wheel_radius_m;
    list.add("legs", materials::rubber(),
             build::lathe(wheel,
                          {{0, -half * 0.8},
                           {r * 0.72, -half * 0.8},
                           {r * 0.78, -half},
                           {r * 0.93, -half},
                           {r, -half * 0.45},
                           {r, half * 0.45},
                           {r * 0.93, half},
                           {r * 0.78, half},
                           {r * 0.72, half * 0.8},
                           {0, half * 0.8}},
                          20));
    list.add("legs", materials::chrome(), drum(axle, axle_direction, 0.008, 0.046, 8));
    list.add("legs", materials::chrome(),
             drum(pivot + Vec3(0, 0.122, 0), {0, 1, 0}, 0.019, 0.028, 12));
    for (const double hand : {-1.0, 1.0}) {
        const Vec3 offset = axle_direction * (hand * (half + 0.005));
        const Vec3 down = glm::normalize(axle - crown);
        const Frame plate = build::facing(0.5 * (crown + axle) + offset, down);
        // The plate's thin side lies along the axle.
        const Vec3 wide = glm::normalize(glm::cross(down, axle_direction));
        list.add("legs", materials::chrome(),
                 build::box({plate.origin_m, Mat3(axle_direction, wide, down)},
                            {0.0015, 0.014, 0.5 * glm::distance(crown, axle) + 0.010}));
    }
    list.add("legs", materials::chrome(),
             build::box({crown, Mat3(axle_direction, Vec3(0, 1, 0), trail)},
                        {half + 0.0065, 0.004, 0.016}));
    const double brake_elevation_deg = base.locked ? -12.0 : 22.0;
    const Vec3 lever = direction_from({trail_deg, brake_elevation_deg});
    const Vec3 lever_up = glm::normalize(glm::cross(lever, axle_direction));
    list.add(
        "legs", materials::red_trim(),
        build::chamfered_box({crown + lever * 0.040 - Vec3(0, 0.002, 0),
                              Mat3(axle_direction, lever_up, glm::cross(axle_direction, lever_up))},
                             {0.013, 0.004, 0.026}, 0.002));
}

void add_wheeled_legs(PartList& list, const Support& support, const SupportPose& pose,
                      const std::vector<Leg>& legs) {
    const Material tube = stand_material(support.kind);
    const Vec3 axis = pose.hub_m;
    const double tube_radius = 0.5 * support.column.tube_diameter_m;
    const double strut_m = std::max(0.10, 0.48 * axis.y);
    const Vec3 up(0, 1, 0);
    list.add("legs", materials::aluminium(), drum(axis, up, tube_radius + 0.013, 0.085, 20, 0.006));
    list.add("legs", materials::aluminium(),
             drum({axis.x, strut_m, axis.z}, up, tube_radius + 0.009, 0.034, 20, 0.004));
    for (std::size_t i = 0; i < legs.size(); ++i) {
        const Vec3 out = outward(axis, pose.feet_m[i]);
        list.add("legs", tube,
                 bar(legs[i].path_m.front(), legs[i].path_m.back(), legs[i].radius_m, 14));
        list.add("legs", tube,
                 bar(Vec3(axis.x, strut_m, axis.z) + out * (tube_radius + 0.006),
                     along(legs[i], 0.50), 0.0085, 8));
        list.add(
            "legs", materials::plastic(),
            build::ball(build::standing(legs[i].path_m.back(), 0.0), legs[i].radius_m * 1.12, 10));
        // Left where the last push put them: each caster its own way.
        const double trail_deg = angles_of(out).azimuth_deg + 105.0 + 47.0 * static_cast<double>(i);
        add_caster(list, support.base, pose.feet_m[i], trail_deg);
    }
    const Vec3 knob_out =
        direction_from({support.base.turn_deg + 180.0 / std::max(1, support.base.legs), 0.0});
    add_tee_knob(list, "legs", axis + knob_out * (tube_radius + 0.012), knob_out, up, 1.2);
}

} // namespace

std::vector<Leg> legs_of(const Support& support, const SupportPose& pose) {
    std::vector<Leg> legs;
    const LegStyle style = style_of(support);
    const double collar_m = 0.5 * support.column.tube_diameter_m + 0.006;
    for (std::size_t i = 0; i < pose.feet_m.size(); ++i) {
        const Vec3& foot = pose.feet_m[i];
        if (style == LegStyle::bent)
            legs.push_back(bent_leg(pose.hub_m, foot, bent_hub_m(pose.hub_m.y, i)));
        else if (style == LegStyle::braced)
            legs.push_back(straight_leg(pose.hub_m, foot, pose.hub_m.y, collar_m, 0.024, 0.010));
        else
            legs.push_back(
                straight_leg(pose.hub_m, foot, pose.hub_m.y, collar_m, caster_top_m + 0.01, 0.016));
    }
    return legs;
}

double leg_top_m(const Leg& leg, const Vec3& axis_m, double distance_m) {
    const auto reach = [&](const Vec3& point) {
        return glm::distance(Vec2(point.x, point.z), Vec2(axis_m.x, axis_m.z));
    };
    for (std::size_t i = 0; i + 1 < leg.path_m.size(); ++i) {
        const double from = reach(leg.path_m[i]);
        const double to = reach(leg.path_m[i + 1]);
        if (distance_m > to || to - from < 1e-9) continue;
        const double part = std::clamp((distance_m - from) / (to - from), 0.0, 1.0);
        return glm::mix(leg.path_m[i].y, leg.path_m[i + 1].y, part) + leg.radius_m;
    }
    return leg.path_m.back().y + leg.radius_m;
}

Material stand_material(SupportKind kind) {
    const bool light = kind == SupportKind::low || kind == SupportKind::standard;
    return light ? materials::black_metal() : materials::chrome();
}

void add_legs(PartList& list, const Support& support, const SupportPose& pose) {
    const std::vector<Leg> legs = legs_of(support, pose);
    switch (style_of(support)) {
    case LegStyle::bent:
        return add_bent_legs(list, support, pose, legs);
    case LegStyle::straight:
        return add_wheeled_legs(list, support, pose, legs);
    case LegStyle::braced:
        return add_braced_legs(list, support, pose, legs);
    }
}

} // namespace keystead::gear
