// Counterweights and sandbags. Their size follows from their mass.

#include "sim/shape/build/solids.h"
#include "sim/shape/build/sweep.h"
#include "sim/shape/gear/gear.h"
#include "sim/shape/materials.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace keystead::gear {

namespace {

using build::Station;

/// Cast iron with a hole and grips: about 6000 kg per cubic metre of outline.
constexpr double counterweight_kg_m3 = 6000.0;
constexpr double counterweight_length_over_diameter = 0.88;
/// A saddle bag of 6.8 kg has two pouches about this long; other masses scale as the cube root.
constexpr double usual_bag_kg = 6.8;
constexpr double pouch_length_m = 0.27;
constexpr double pouch_half_width_m = 0.094;
constexpr double pouch_half_thickness_m = 0.047;
constexpr double least_clearance_m = 0.012; ///< a hanging bag shows some air below it
constexpr int pouch_stations = 13;

/// Where a bag hangs over something: its crest, the direction of what it hangs over, and how wide
/// that is.
struct Saddle {
    Vec3 crest_m{0.0};
    Vec3 along{0, 0, 1}; ///< unit, horizontal
    double half_gap_m = 0.02;
    bool resting = false;
};

struct Size {
    double length_m, half_width_m, half_thickness_m;
};

Size size_of(const Bag& bag) {
    const double scale = std::cbrt(bag.mass_kg / usual_bag_kg);
    return {pouch_length_m * scale, pouch_half_width_m * scale, pouch_half_thickness_m * scale};
}

/// How a pouch's width and thickness run from the crest (0) to its end (1): sand settles low.
Vec2 fullness(double u) {
    const double belly = std::sin(pi * std::pow(u, 1.3));
    const double thick = 0.14 + 0.86 * std::pow(std::max(0.0, belly), 0.42);
    const double wide = 0.66 + 0.34 * std::min(1.0, 2.2 * u) - 0.10 * std::pow(u, 8.0);
    return {wide, u > 0.999 ? 0.22 : thick};
}

/// Heading below the horizontal as a pouch leaves the crest: out first, then down.
double hanging_heading_deg(double u) {
    return 12.0 + 72.0 * std::min(1.0, u / 0.22);
}

/// Centre line of one pouch in the plane across the saddle, (sideways, down) from the crest.
/// `lift` turns the lower part outward: 0 hangs free.
std::vector<Vec2> pouch_line(double length_m, double half_gap_m, double lift) {
    std::vector<Vec2> line{{half_gap_m * 0.35, 0.0}};
    for (int i = 1; i < pouch_stations; ++i) {
        const double u = (i - 0.5) / (pouch_stations - 1);
        const double free_deg = hanging_heading_deg(u);
        const double heading =
            radians(std::max(-6.0, free_deg * (1.0 - lift * std::min(1.0, 1.5 * u))));
        const double step = length_m / (pouch_stations - 1);
        line.push_back(line.back() + step * Vec2(std::cos(heading), std::sin(heading)));
    }
    return line;
}

/// Lowest point of a pouch below the crest with its thickness.
double depth_of(const std::vector<Vec2>& line, double half_thickness_m) {
    double deepest = 0.0;
    for (std::size_t i = 0; i < line.size(); ++i) {
        const double u = static_cast<double>(i) / (pouch_stations - 1);
        const Vec2 ahead = line[std::min(i + 1, line.size() - 1)] - line[i == 0 ? 0 : i - 1];
        const double flatness = std::abs(ahead.x) / glm::length(ahead);
        deepest = std::max(deepest, line[i].y + half_thickness_m * fullness(u).y * flatness);
    }
    return deepest;
}

/// The least lift with which the pouch stays above the floor.
double lift_over_floor(const Saddle& saddle, const Size& size) {
    const double room = saddle.crest_m.y - (saddle.resting ? 0.0 : least_clearance_m);
    double low = 0.0;
    double high = 1.15;
    if (depth_of(pouch_line(size.length_m, saddle.half_gap_m, low), size.half_thickness_m) <= room)
        return low;
    for (int i = 0; i < 24; ++i) {
        const double middle = 0.5 * (low + high);
        const bool clear = depth_of(pouch_line(size.length_m, saddle.half_gap_m, middle),
                                    size.half_thickness_m) <= room;
        (clear ? high : low) = middle;
    }
    return high;
}

/// A pillow: pointed at the seams (left and right), bulging between them.
std::vector<Vec2> pillow() {
    constexpr int points = 16;
    std::vector<Vec2> outline;
    outline.reserve(points);
    for (int i = 0; i < points; ++i) {
        const double angle = 2.0 * pi * i / points;
        const double c = std::cos(angle);
        const double s = std::sin(angle);
        outline.emplace_back(c, std::copysign(std::pow(std::abs(s), 0.95), s));
    }
    return outline;
}

/// Stations of the whole bag, from the end of one pouch over the crest to the end of the other.
std::vector<Station> bag_stations(const Saddle& saddle, const Size& size, double skew) {
    const double lift = lift_over_floor(saddle, size);
    const Vec3 sideways = glm::cross(Vec3(0, 1, 0), saddle.along);
    std::vector<Vec3> path;
    std::vector<Vec2> scales;
    for (const double hand : {-1.0, 1.0}) {
        // No two bags fill alike: one pouch a little shorter, pulled a little along.
        const double length = size.length_m * (1.0 - 0.05 * skew * hand);
        const std::vector<Vec2> line =
            pouch_line(length, saddle.half_gap_m, std::min(1.15, lift + 0.03 * std::abs(skew)));
        for (int i = 0; i < pouch_stations; ++i) {
            const int station = hand < 0.0 ? pouch_stations - 1 - i : i;
            const double u = static_cast<double>(station) / (pouch_stations - 1);
            const Vec2 point = line[static_cast<std::size_t>(station)];
            path.push_back(saddle.crest_m + sideways * (hand * point.x) - Vec3(0, point.y, 0) +
                           saddle.along * (0.035 * skew * hand * u));
            scales.push_back(fullness(u) * Vec2(size.half_width_m, size.half_thickness_m));
        }
    }
    std::vector<Station> stations;
    stations.reserve(path.size());
    for (std::size_t i = 0; i < path.size(); ++i) {
        const Vec3 z =
            glm::normalize(path[std::min(i + 1, path.size() - 1)] - path[i == 0 ? 0 : i - 1]);
        const Vec3 x = glm::normalize(saddle.along - z * glm::dot(saddle.along, z));
        stations.push_back({{path[i], Mat3(x, glm::cross(z, x), z)}, scales[i]});
    }
    return stations;
}

constexpr double piping_radius_m = 0.0032;

void add_piping(PartList& list, const std::vector<Station>& stations) {
    for (const double hand : {-1.0, 1.0}) {
        std::vector<Vec3> seam;
        seam.reserve(stations.size() / 2 + 1);
        for (std::size_t i = 0; i < stations.size(); i += 2)
            seam.push_back(stations[i].frame.at(hand * stations[i].scale.x, 0, 0));
        list.add("bag", materials::red_trim(), build::rod(seam, piping_radius_m, 5));
    }
}

void add_handle(PartList& list, const Saddle& saddle, const Size& size, double skew) {
    const Vec3 sideways = glm::cross(Vec3(0, 1, 0), saddle.along);
    const Vec3 crown = glm::normalize(Vec3(0, 1, 0) + sideways * (0.55 * skew));
    const double half = 0.75 * size.half_width_m;
    const auto at = [&](double along_m, double up_m) {
        return saddle.crest_m + saddle.along * along_m + crown * up_m;
    };
    const std::vector<Vec3> path =
        build::smooth_path({at(-half, 0.0), at(-0.86 * half, 0.030), at(-0.4 * half, 0.055),
                            at(0.4 * half, 0.055), at(0.86 * half, 0.030), at(half, 0.0)},
                           3);
    list.add("bag", materials::rubber(),
             build::strap(path, glm::cross(crown, saddle.along), 0.028, 0.004));
}

/// Lifted so that nothing is below the floor; a resting bag comes down onto it.
void settle(std::vector<Station>& stations, Saddle& saddle) {
    double lowest = 1e9;
    for (const Station& station : stations)
        for (const Vec2& point : pillow())
            lowest = std::min(
                lowest,
                station.frame.at(point.x * station.scale.x, point.y * station.scale.y, 0.0).y);
    lowest -= piping_radius_m;
    const bool sunk = lowest < (saddle.resting ? 0.0 : 0.5 * least_clearance_m);
    if (!sunk && !saddle.resting) return;
    const Vec3 lift(0, (saddle.resting ? 0.0 : least_clearance_m) - lowest, 0);
    for (Station& station : stations) station.frame.origin_m += lift;
    saddle.crest_m += lift;
}

/// What the bag hangs over: its direction and upper side.
Saddle saddle_of(const Bag& bag, const Support& support, const SupportPose& pose,
                 const Size& size) {
    Saddle saddle;
    saddle.resting = !bag.hanging;
    const Vec3 hung_at = bag_hangs_at_m(bag, support, pose);
    saddle.crest_m = hung_at;
    if (bag.place == BagPlace::leg && !pose.feet_m.empty()) {
        const std::vector<Leg> legs = legs_of(support, pose);
        const std::size_t index = static_cast<std::size_t>(std::max(0, bag.leg)) % legs.size();
        const Leg& leg = legs[index];
        const Vec3 flat(hung_at.x - pose.hub_m.x, 0, hung_at.z - pose.hub_m.z);
        saddle.crest_m.y = leg_top_m(leg, pose.hub_m, glm::length(flat));
        saddle.along = glm::length(flat) > 1e-6 ? glm::normalize(flat) : saddle.along;
        saddle.half_gap_m = leg.radius_m + 0.006;
    } else if (bag.place == BagPlace::column) {
        saddle.along = direction_from({support.base.turn_deg + 30.0, 0.0});
        saddle.half_gap_m = 0.5 * support.column.tube_diameter_m + 0.022;
    } else {
        const Vec3 flat(pose.arm_direction.x, 0, pose.arm_direction.z);
        saddle.along = glm::length(flat) > 1e-6 ? glm::normalize(flat) : saddle.along;
        saddle.half_gap_m = 0.022;
        saddle.crest_m.y += 0.018;
    }
    saddle.crest_m.y += 0.14 * size.half_thickness_m;
    // A bag on the floor beside a high place lies flat instead of draping.
    if (saddle.resting) saddle.crest_m.y = std::min(saddle.crest_m.y, 0.9 * size.length_m);
    if (saddle.resting && bag.place != BagPlace::leg)
        saddle.crest_m.y = 1.7 * size.half_thickness_m;
    return saddle;
}

} // namespace

void add_counterweight(PartList& list, const Support& support, const SupportPose& pose) {
    if (!support.arm || !support.arm->counterweight) return;
    const double mass = support.arm->counterweight->mass_kg;
    if (mass <= 0.0) return;
    const double volume = mass / counterweight_kg_m3;
    const double radius = std::cbrt(volume / (2.0 * pi * counterweight_length_over_diameter));
    const double half = radius * counterweight_length_over_diameter;
    const Vec3 axis = pose.arm_direction;
    const double groove = 0.10 * radius;
    list.add("counterweight", materials::plastic(),
             build::lathe(build::facing(pose.counterweight_m, axis),
                          {{0, -half},
                           {0.80 * radius, -half},
                           {radius, -0.82 * half},
                           {radius, -0.12 * half},
                           {radius - groove, -0.06 * half},
                           {radius - groove, 0.06 * half},
                           {radius, 0.12 * half},
                           {radius, 0.82 * half},
                           {0.80 * radius, half},
                           {0, half}},
                          28));
    const Vec3 level = glm::cross(axis, Vec3(0, 1, 0));
    const Vec3 right = glm::length(level) > 1e-6 ? glm::normalize(level) : Vec3(1, 0, 0);
    add_tee_knob(list, "counterweight", pose.counterweight_m + right * (radius - groove), right,
                 axis, 1.1);
}

void add_bags(PartList& list, const Support& support, const SupportPose& pose) {
    constexpr std::array<double, 4> skews{0.7, -1.0, 0.35, -0.5};
    for (std::size_t i = 0; i < support.bags.size(); ++i) {
        const Bag& bag = support.bags[i];
        if (bag.mass_kg <= 0.0) continue;
        const Size size = size_of(bag);
        const double skew = skews[i % skews.size()];
        Saddle saddle = saddle_of(bag, support, pose, size);
        std::vector<Station> stations = bag_stations(saddle, size, skew);
        settle(stations, saddle);
        list.add("bag", materials::bag_cloth(), build::loft(stations, pillow()), 70.0);
        add_piping(list, stations);
        add_handle(list, saddle, size, skew);
    }
}

} // namespace keystead::gear
