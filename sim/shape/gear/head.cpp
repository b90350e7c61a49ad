// The lamp's body in its yoke.

#include "sim/shape/build/solids.h"
#include "sim/shape/build/sweep.h"
#include "sim/shape/gear/gear.h"
#include "sim/shape/materials.h"

#include <algorithm>
#include <cmath>

namespace keystead::gear {

namespace {

using build::drum;
using build::Frame;

constexpr double yoke_gap_m = 0.006;   ///< lamp to the inside of the yoke
constexpr double yoke_reach_m = 0.034; ///< lamp to the crossbar
constexpr double plate_thickness_m = 0.005;
constexpr double plate_width_m = 0.030;

/// The lamp faces where the beam goes, or into a reflecting umbrella behind it.
Vec3 lamp_direction(const Emitter& emitter) {
    const Vec3 beam = emitter.axes[2];
    return emitter.shape == ModifierShape::umbrella && !emitter.bulges ? -beam : beam;
}

/// A plate along a straight line: `across` is its thin direction.
void add_plate(PartList& list, const Vec3& from_m, const Vec3& to_m, const Vec3& across) {
    const Vec3 z = glm::normalize(to_m - from_m);
    const Vec3 x = glm::normalize(across - z * glm::dot(across, z));
    list.add("head", materials::black_metal(),
             build::chamfered_box({0.5 * (from_m + to_m), Mat3(x, glm::cross(z, x), z)},
                                  {0.5 * plate_thickness_m, 0.5 * plate_width_m,
                                   0.5 * glm::distance(from_m, to_m) + 0.5 * plate_thickness_m},
                                  0.0012));
}

void add_yoke(PartList& list, const HeadPlace& place) {
    const double half = place.radius_m + yoke_gap_m;
    for (const double hand : {-1.0, 1.0}) {
        const Vec3 offset = place.across * (hand * half);
        add_plate(list, place.pivot_m + offset - place.stem_direction * 0.014,
                  place.stem_m + offset, place.across);
        list.add("head", materials::plastic(),
                 drum(place.pivot_m + place.across * (hand * (half + 0.014)), place.across, 0.017,
                      0.024, 14, 0.003));
    }
    const Vec3 end = place.across * half;
    add_plate(list, place.stem_m - end, place.stem_m + end, place.stem_direction);
    if (place.socket_m < 0.03) return;
    const Vec3 socket = place.stem_m + place.stem_direction * (0.5 * place.socket_m);
    list.add("head", materials::plastic(),
             drum(socket, place.stem_direction, 0.018, place.socket_m, 14, 0.003));
    add_tee_knob(list, "head", socket + place.across * 0.016, place.across, place.stem_direction,
                 0.9);
}

/// Body from the back (z = -length) to the front plate (z = 0), with cooling ribs behind.
void add_body(PartList& list, const HeadPlace& place) {
    const double r = place.radius_m;
    const double l = place.length_m;
    std::vector<Vec2> profile{{0, -l}, {0.84 * r, -l}, {0.93 * r, -l + 0.010}};
    for (int rib = 0; rib < 2; ++rib) {
        const double z = -l + 0.020 + 0.022 * rib;
        if (z > -0.5 * l) break;
        profile.insert(profile.end(),
                       {{0.98 * r, z}, {0.98 * r, z + 0.010}, {0.93 * r, z + 0.013}});
    }
    profile.insert(profile.end(), {{0.93 * r, -0.52 * l},
                                   {r, -0.50 * l},
                                   {r, -0.06 * l},
                                   {0.92 * r, -0.03 * l},
                                   {0.92 * r, 0},
                                   {0, 0}});
    list.add("head", materials::plastic(), build::lathe(place.front, profile, 24), 35.0);
    // A ring where the modifier locks on.
    list.add("head", materials::aluminium(),
             build::lathe(
                 place.front,
                 {{0.90 * r, -0.014}, {1.06 * r, -0.014}, {1.06 * r, -0.002}, {0.90 * r, -0.002}},
                 28, true));
}

/// Controls on the back and a carrying handle above it.
void add_back(PartList& list, const HeadPlace& place) {
    const double r = place.radius_m;
    const Vec3 up = -place.stem_direction;
    const Vec3 back = -place.front.z();
    const Vec3 centre = place.front.at(0, 0, -place.length_m);
    const Vec3 side = place.across;
    const Mat3 panel(glm::cross(up, back), up, back);
    list.add("head", materials::plain({0.10F, 0.13F, 0.12F}, 0.20F),
             build::box({centre + up * (0.22 * r), panel}, {0.44 * r, 0.20 * r, 0.002}));
    list.add("head", materials::black_metal(),
             drum(centre - up * (0.36 * r), back, 0.22 * r, 0.022, 16, 0.003));
    for (const double hand : {-1.0, 1.0})
        list.add("head", materials::rubber(),
                 drum(centre - up * (0.36 * r) + side * (hand * 0.48 * r), back, 0.10 * r, 0.010,
                      10, 0.001));
    const auto at = [&](double along, double up_m) {
        return place.front.at(0, 0, -place.length_m * along) + up * (r + up_m);
    };
    list.add("head", materials::rubber(),
             build::strap(build::smooth_path({at(0.94, -0.004), at(0.92, 0.020), at(0.80, 0.030),
                                              at(0.66, 0.028), at(0.58, -0.004)},
                                             3),
                          side, 0.022, 0.008));
}

/// The yoke reaches back toward what carries it, but never along the lamp's own axis, where the
/// body is in its way.
void place_stem(HeadPlace& place, const Vec3& toward_support) {
    constexpr double most_along_axis = 0.7;
    const Vec3 axis = place.front.z();
    const Vec3 beside = place.front.y();
    const double side = glm::dot(toward_support, beside);
    const double along = glm::dot(toward_support, axis);
    const double away = side > 0.05 ? 1.0 : -1.0;
    const double clear = std::max(std::abs(side), 1.0 - std::abs(along) * most_along_axis);
    const bool column = toward_support.y < -0.999;
    place.stem_direction =
        column && std::abs(side) > 0.3
            ? toward_support
            : glm::normalize(beside * (away * clear) +
                             axis * std::clamp(along, -most_along_axis, most_along_axis));
    const double radial = std::max(0.5, std::abs(glm::dot(place.stem_direction, beside)));
    // Close to the floor the yoke is short and sits on the base without a socket.
    const double above_floor_m = place.pivot_m.y - place.radius_m - 0.018;
    const double reach =
        column ? std::min(yoke_reach_m, std::max(0.004, above_floor_m)) : yoke_reach_m;
    place.stem_m = place.pivot_m + place.stem_direction * ((place.radius_m + reach) / radial);
    if (column) place.socket_m = std::clamp(place.stem_m.y - 0.02, 0.0, place.socket_m);
}

} // namespace

HeadPlace place_head(const Light& light, const SupportPose& pose, const Emitter& emitter) {
    HeadPlace place;
    place.radius_m = 0.5 * light.head.diameter_m;
    place.length_m = light.head.length_m;
    const Vec3 beam = emitter.axes[2];
    const Vec3 facing = lamp_direction(emitter);
    // The front plate carries the modifier; an umbrella's shaft runs through the lamp instead.
    const Vec3 front = emitter.shape == ModifierShape::umbrella
                           ? pose.tip_m + facing * (0.5 * place.length_m)
                           : emitter.centre_m - beam * light.modifier.depth_m;
    place.front = build::facing(front, facing);
    const double behind = std::clamp(glm::dot(pose.tip_m - front, facing), -place.length_m, 0.0);
    place.pivot_m = front + facing * behind;
    place.across = place.front.x();
    place_stem(place, light.support.arm ? -pose.arm_direction : Vec3(0, -1, 0));
    return place;
}

void add_head(PartList& list, const HeadPlace& place) {
    add_body(list, place);
    add_back(list, place);
    add_yoke(list, place);
}

} // namespace keystead::gear
