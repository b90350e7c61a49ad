#include "sim/review/edge_light.h"

#include "sim/meter/meter_point.h"
#include "sim/review/bag_needed.h"
#include "sim/review/say.h"
#include "sim/review/tone.h"
#include "sim/set/catalogue.h"
#include "sim/support/stability.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>

namespace keystead {

namespace {

/// In hand: readings on the day are no better, and the light comes back off walls and cloth.
constexpr double in_hand_stops = 0.9;

std::string free_id(const Set& set, const std::string& stem) {
    const auto taken = [&](const std::string& id) {
        return std::any_of(set.lights.begin(), set.lights.end(),
                           [&](const Light& light) { return light.id == id; }) ||
               std::any_of(set.panels.begin(), set.panels.end(),
                           [&](const Panel& panel) { return panel.id == id; });
    };
    // Owners of the scene's own pieces are no ids of lights.
    std::string id = stem == "background" ? stem + "-light" : stem;
    const std::string first = id;
    for (int n = 2; taken(id); ++n) id = first + "-" + std::to_string(n);
    return id;
}

struct Place {
    double aside_m = 0.0, behind_m = 0.0, height_m = 0.0;
};

std::vector<Place> places(const Bench& bench) {
    // The side away from the key first: the light there works alone.
    const double key_x = bench.key >= 0
                             ? bench.studio.emitters[static_cast<std::size_t>(bench.key)].centre_m.x
                             : -1.0;
    const double side = key_x > 0.0 ? -1.0 : 1.0;
    std::vector<Place> list;
    for (const double height : {2.5, 2.3, 2.1, 2.8})
        for (const double behind : {0.9, 0.7, 1.1, 1.4})
            for (const double aside : {0.5, 0.7, 0.9, 1.2})
                for (const double way : {side, -side})
                    list.push_back({way * aside, behind, height});
    return list;
}

/// Stand, lamp and legs as points that the picture must not show.
bool in_frame(const Bench& bench, const Emitter& emitter, const Support& support) {
    constexpr double around_lamp_m = 0.18, beyond_edge = 1.04;
    const auto shown = [&](const Vec3& point) {
        Vec2 at;
        return in_picture(bench.sight.frame, point, at) && std::abs(at.x) < beyond_edge &&
               std::abs(at.y) < beyond_edge;
    };
    const Vec2& base = support.base.position_m;
    const double foot = support.base.foot_radius_m;
    for (const Vec3& way : {Vec3(1, 0, 0), Vec3(-1, 0, 0), Vec3(0, 1, 0), Vec3(0, -1, 0),
                            Vec3(0, 0, 1), Vec3(0, 0, -1)})
        if (shown(emitter.centre_m + around_lamp_m * way) ||
            shown(Vec3(base.x, 0.02, base.y) + foot * Vec3(way.x, 0.0, way.z)))
            return true;
    constexpr int steps = 12;
    for (int i = 0; i <= steps; ++i) {
        const double y = support.column.height_m * i / steps;
        // Legs come in to the column at hub height.
        const double reach = std::max(0.05, foot * (1.0 - y / support.base.hub_height_m));
        for (const double aside : {-reach, reach})
            if (shown({base.x + aside, y, base.y})) return true;
    }
    return false;
}

bool fits_room(const Bench& bench, const Emitter& emitter, const Support& support) {
    const Room& room = bench.studio.set.room;
    const Background& background = bench.studio.set.background;
    const Vec2& base = support.base.position_m;
    const double foot = support.base.foot_radius_m + 0.05;
    const double back = background.kind == BackgroundKind::none
                            ? room.behind_subject_m
                            : std::min(room.behind_subject_m, background.distance_m - 0.02);
    if (base.x - foot < -room.left_of_subject_m ||
        base.x + foot > room.width_m - room.left_of_subject_m || -base.y + foot > back)
        return false;
    constexpr double over_lamp_m = 0.25;
    if (std::max(emitter.centre_m.y, support.column.height_m) + over_lamp_m > room.ceiling_m)
        return false;
    constexpr double apart_m = 0.75;
    const auto& lights = bench.studio.set.lights;
    return std::none_of(lights.begin(), lights.end(), [&](const Light& light) {
        return glm::length(light.support.base.position_m - base) < apart_m;
    });
}

/// A grid's walls send a little everywhere: a fiftieth of what goes along the beam is dark enough.
bool shines_at(const Emitter& emitter, const Vec3& point_m) {
    constexpr double stray = 0.02;
    double there = 0.0, ahead = 0.0;
    for (const EmitterPoint& point : emitter_points(emitter, 34)) {
        there += radiance(emitter, point, glm::normalize(point_m - point.position_m));
        ahead += radiance(emitter, point, emitter.axes[2]);
    }
    return there > stray * ahead;
}

/// Tone that the light adds to one side of an edge at full power. Glints on the sitter come and go
/// with a turn of the head: a remedy does not count on them.
double added_tone(const Bench& bench, const Emitter& full, const EdgeSide& side) {
    double sum = 0.0;
    for (std::size_t i = 0; i < side.points.size(); ++i) {
        const SurfacePoint& point = side.points[i];
        const GivenLight light =
            light_on(full, probe_on(point), side.glossy[i], bench.studio.rays.get(), 21);
        sum += point.reflectance * light.given + (side.owner == "subject" ? 0.0 : light.mirrored);
    }
    return sum * counted_time_s(full, bench.studio.set.camera) /
           (bench.camera_exposure_lx_s * static_cast<double>(side.points.size()));
}

/// What the light would do to one edge at full power.
struct Added {
    double inside = 0.0, outside = 0.0; ///< tones as they are
    double by_inside = 0.0, by_outside = 0.0;
    bool parts(double power) const { return verdict(power) == EdgeVerdict::parts; }
    EdgeVerdict verdict(double power) const {
        return edge_verdict(inside + power * by_inside, outside + power * by_outside);
    }
    double most() const { return std::max(by_inside, by_outside); }
};

Added added(const Bench& bench, const Emitter& full, const Edge& edge) {
    return {edge.inside.tone, edge.outside.tone, added_tone(bench, full, edge.inside),
            added_tone(bench, full, edge.outside)};
}

/// Full power less so many stops that every edge the light reaches parts and none of `others`
/// merges; nothing where full power is too little or something would bleach.
std::optional<double> stops_below(const Bench& bench, const Emitter& full, double range_stops,
                                  const std::vector<Edge>& edges, const std::vector<Edge>& others) {
    constexpr double reached = 0.15; // of the first: else the light is not for it
    std::vector<Added> wanted, kept;
    for (const Edge& edge : edges) {
        const Added here = added(bench, full, edge);
        if (wanted.empty() && here.most() <= 0.0) return {};
        if (wanted.empty() || here.most() >= reached * wanted.front().most())
            wanted.push_back(here);
    }
    for (const Edge& edge : others) kept.push_back(added(bench, full, edge));
    const auto good = [&](double stops) {
        const double power = std::exp2(-stops);
        return std::all_of(wanted.begin(), wanted.end(),
                           [&](const Added& a) {
                               return a.parts(power) && a.inside + power * a.by_inside < 1.0 &&
                                      a.outside + power * a.by_outside < 1.0;
                           }) &&
               std::none_of(kept.begin(), kept.end(), [&](const Added& a) {
                   return a.verdict(power) == EdgeVerdict::merges;
               });
    };
    for (double stops = range_stops; stops >= in_hand_stops; stops -= 0.1) {
        const double set = std::round(10.0 * (stops - in_hand_stops)) / 10.0;
        if (good(stops) && good(set)) return set;
    }
    return {};
}

/// Hangs the bag that the statics ask for; false where that does not make it stand.
bool made_to_stand(Light& light, const AimTarget& aim, const StabilityLimits& limits) {
    Stability stability = assess(light, pose_support(light, aim), limits);
    if (stability.verdict == Verdict::stable) return true;
    const BagNeeded needed = bag_needed(light, aim, limits, stability);
    if (needed.bag.mass_kg <= 0.0 || needed.bag.second_leg >= 0) return false;
    Bag bag;
    bag.mass_kg = std::ceil(2.0 * needed.bag.mass_kg) / 2.0;
    bag.place = needed.bag.leg >= 0 ? BagPlace::leg : BagPlace::column;
    bag.leg = std::max(0, needed.bag.leg);
    if (needed.bag.leg >= 0) bag.at_m = needed.bag.at_m;
    light.support.bags.push_back(bag);
    return assess(light, pose_support(light, aim), limits).verdict == Verdict::stable;
}

Light bare_light(const Bench& bench, const char* id, const char* modifier, const char* support) {
    Light light;
    light.id = free_id(bench.studio.set, id);
    light.role = id;
    light.head = find_entry(catalogue().heads, "monolight-400")->value;
    light.modifier = find_entry(catalogue().modifiers, modifier)->value;
    light.support = find_entry(catalogue().supports, support)->value;
    return light;
}

std::string words_of(const Place& place) {
    return say::with_unit(place.behind_m, 1, "m") + " behind" +
           (std::abs(place.aside_m) < 0.05
                ? std::string()
                : " and " + say::with_unit(std::abs(place.aside_m), 1, "m") + " to camera " +
                      (place.aside_m > 0.0 ? "right" : "left")) +
           ", " + say::with_unit(place.height_m, 1, "m") + " up";
}

/// Where it is put, and what it is aimed at; false where that cannot be.
using Put = std::function<bool(Light&, const Place&)>;

/// The first place that suits; one that shines into the lens only where no other does.
std::optional<EdgeLight> first_that_parts(const Bench& bench, const std::vector<Edge>& edges,
                                          const std::vector<Edge>& others, const Light& blank,
                                          const std::vector<Place>& list, const Put& put,
                                          std::optional<EdgeLight> second_best = {}) {
    for (const Place& place : list) {
        Light light = blank;
        if (!put(light, place)) continue;
        const AimTarget aim = resolve_aim(light, bench.marks);
        const Emitter full = make_emitter(light, pose_support(light, aim), bench.studio.set.meter);
        if (in_frame(bench, full, light.support) || !fits_room(bench, full, light.support))
            continue;
        const bool into_lens = shines_at(full, bench.sight.frame.eye_m);
        if (into_lens && second_best) continue;
        const auto stops = stops_below(bench, full, light.head.range_stops, edges, others);
        if (!stops) continue;
        light.head.power_stops_below = *stops;
        if (!made_to_stand(light, aim, bench.studio.set.limits)) continue;
        const double at_face =
            exposure_at(full, {bench.marks.face, glm::normalize(full.centre_m - bench.marks.face)},
                        nullptr, 55) *
            std::exp2(-*stops) * counted_time_s(full, bench.studio.set.camera);
        EdgeLight found{std::move(light), words_of(place), into_lens,
                        stops_from_key(bench, at_face).value_or(0.0)};
        if (!into_lens) return found;
        second_best = std::move(found);
    }
    return second_best;
}

bool stand_at(Light& light, const Place& place) {
    Support& support = light.support;
    if (place.height_m > support.column.max_height_m ||
        place.height_m < support.column.min_height_m)
        return false;
    support.base.position_m = {place.aside_m, -place.behind_m};
    // A leg toward the sitter, on the side that the load leans to.
    support.base.turn_deg = angles_of(Vec3(0.0 - place.aside_m, 0.0, place.behind_m)).azimuth_deg;
    support.column.height_m = place.height_m;
    return true;
}

} // namespace

std::optional<EdgeLight> new_edge_light(const Bench& bench, const std::vector<Edge>& edges,
                                        const std::vector<Edge>& others) {
    if (edges.empty()) return {};
    std::optional<EdgeLight> best;
    for (const char* modifier :
         {"reflector-18-grid-29", "reflector-18-grid-17", "reflector-18-grid-10"}) {
        Light blank = bare_light(bench, "hair", modifier, "century-40");
        blank.aim.kind = AimKind::landmark;
        blank.aim.landmark = "hair_top";
        best = first_that_parts(bench, edges, others, blank, places(bench), stand_at, best);
        if (best && !best->into_lens) break;
    }
    return best;
}

std::optional<EdgeLight> new_background_light(const Bench& bench, const std::vector<Edge>& edges,
                                              const std::vector<Edge>& others) {
    const Set& set = bench.studio.set;
    if (edges.empty() || set.background.kind == BackgroundKind::none) return {};
    std::vector<Place> list;
    for (const double height : {0.6, 0.45, 0.35})
        for (const double behind : {0.6, 0.8, 0.5, 1.0})
            if (behind + 0.45 < set.background.distance_m) list.push_back({0.0, behind, height});
    const Vec3 head = 0.5 * (bench.marks.vertex + bench.marks.menton);
    for (const char* modifier : {"reflector-18-grid-39", "reflector-18"}) {
        Light blank = bare_light(bench, "background", modifier, "low-90");
        blank.aim.kind = AimKind::point;
        // To the millimetre: it is written into the document.
        const auto millimetre = [](double x) { return std::round(1000.0 * x) / 1000.0 + 0.0; };
        blank.aim.point_m = {millimetre(head.x), millimetre(head.y), -set.background.distance_m};
        const auto found = first_that_parts(bench, edges, others, blank, list, stand_at);
        if (found) return found;
    }
    return {};
}

} // namespace keystead
