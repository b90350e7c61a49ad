#include "sim/review/part_ways.h"

#include "sim/portrait/pattern.h"
#include "sim/review/edge_light.h"
#include "sim/review/findings.h"
#include "sim/review/say.h"
#include "sim/review/tone.h"
#include "sim/set/json_text.h"
#include "sim/set/set_json.h"

#include <algorithm>
#include <cmath>

namespace keystead {

namespace {

/// Change of one tone, in tenths of a stop, until an edge parts; nothing within six stops.
std::optional<double> stops_to_part(double moved, double fixed, double way) {
    for (double stops = 0.1; stops <= 6.05; stops += 0.1)
        if (edge_verdict(moved * std::exp2(way * stops), fixed) == EdgeVerdict::parts)
            return way * stops;
    return {};
}

/// Mean share of a light's direct part in the tone of a side.
double share_of(const Bench& bench, std::size_t light, const EdgeSide& side) {
    double sum = 0.0;
    for (std::size_t i = 0; i < side.points.size(); ++i) {
        const Probe probe = probe_on(side.points[i]);
        const GivenLight direct = direct_light(bench, light, side.glossy[i], probe);
        sum += side.points[i].reflectance *
                   (direct.given + off_panels_lx_s(bench.studio, bench.aids, light, probe)) +
               direct.mirrored;
    }
    const double tone =
        sum / (bench.camera_exposure_lx_s * static_cast<double>(side.points.size()));
    return side.tone > 0.0 ? std::min(1.0, tone / side.tone) : 0.0;
}

/// Stops that one light must change for all light to change by `stops`.
std::optional<double> of_one_light(double share, double stops) {
    const double factor = 1.0 + (std::exp2(stops) - 1.0) / share;
    if (factor <= 0.0) return {};
    const double own = std::log2(factor);
    return std::copysign(0.1 * std::ceil(10.0 * std::abs(own) - 1e-6), own);
}

bool from_behind(const Bench& bench, std::size_t light) {
    const Vec3 way = bench.studio.emitters[light].centre_m - bench.marks.face;
    return std::abs(face_angles(way, bench.studio.subject->head_axes).azimuth_deg) > 90.0;
}

/// A light that is there already, given more or less.
void add_power_way(const Bench& bench, std::size_t light, double stops,
                   std::vector<PartWay>& ways) {
    const Light& meant = bench.studio.set.lights[light];
    const double below = 0.1 * std::round(10.0 * (meant.head.power_stops_below - stops));
    if (below < 0.0 || below > meant.head.range_stops) return;
    ways.push_back({"give " + meant.id + " " + say::more_or_less(stops),
                    {say::more_or_less(stops),
                     {{"lights[" + meant.id + "].head.power_stops_below", number_text(below)}}}});
}

/// Lights behind the face that give a good part of one side and nothing of the face.
void add_present_lights(const Bench& bench, const Edge& edge, std::vector<PartWay>& ways) {
    constexpr double good_part = 0.3;
    for (std::size_t i = 0; i < bench.studio.emitters.size(); ++i) {
        if (!from_behind(bench, i) || bench.studio.emitters[i].power <= 0.0) continue;
        const double behind = share_of(bench, i, edge.outside);
        const double edging = share_of(bench, i, edge.inside);
        const bool background = behind > good_part && behind > edging;
        const EdgeSide& moved = background ? edge.outside : edge.inside;
        const EdgeSide& fixed = background ? edge.inside : edge.outside;
        const double share = background ? behind : edging;
        if (share <= good_part) continue;
        const double first = moved.tone >= fixed.tone ? 1.0 : -1.0;
        for (const double way : {first, -first}) {
            const auto stops = stops_to_part(moved.tone, fixed.tone, way);
            const auto own = stops ? of_one_light(share, *stops) : std::nullopt;
            if (!own) continue;
            const std::size_t before = ways.size();
            add_power_way(bench, i, *own, ways);
            if (ways.size() > before) break;
        }
    }
}

PartWay way_of(const EdgeLight& found, const std::string& what, const char* act) {
    const double below = found.light.head.power_stops_below;
    return {what + " " + found.words + ", at " +
                (below < 0.05 ? "full power" : say::stops(below) + " under full power") +
                (found.into_lens ? " (flag it from the lens)" : ""),
            {act, {{"lights[]", light_to_json(found.light).dump()}}}};
}

/// A hair light; before it a light on what hangs behind where the hair would need far more than the
/// key: dark hair drinks light.
void add_new_lights(const Bench& bench, const std::vector<Edge>& edges,
                    const std::vector<Edge>& others, std::vector<PartWay>& ways) {
    constexpr double gentle_stops = 1.5;
    const auto hair = new_edge_light(bench, edges, others);
    const bool gentle = hair && hair->stops_from_key <= gentle_stops;
    const auto glow = gentle ? std::nullopt : new_background_light(bench, edges, others);
    if (glow)
        ways.push_back(way_of(*glow,
                              "light " + std::string(background_word(bench.studio.set)) +
                                  " with a small head on a low stand",
                              "add a background light"));
    if (hair) ways.push_back(way_of(*hair, "hang a small gridded head", "add a hair light"));
}

void add_background(const Bench& bench, const Edge& edge, std::vector<PartWay>& ways) {
    const char* background = background_word(bench.studio.set);
    std::string words;
    const double first = edge.outside.tone >= edge.inside.tone ? 1.0 : -1.0;
    for (const double way : {first, -first})
        if (const auto stops = stops_to_part(edge.outside.tone, edge.inside.tone, way))
            words += (words.empty() ? "" : " or ") + say::more_or_less(*stops);
    if (!words.empty())
        ways.push_back({words + " light on " + background +
                            " there, from lights that miss the "
                            "sitter",
                        {}});
}

} // namespace

std::vector<PartWay> ways_to_part(const Bench& bench, const std::string& place,
                                  const std::vector<std::string>& places) {
    std::vector<PartWay> ways;
    std::vector<Edge> edges = edges_of(bench), others;
    for (const Edge& edge : edges)
        if (edge_verdict(edge.inside.tone, edge.outside.tone) == EdgeVerdict::parts)
            others.push_back(edge);
    std::erase_if(edges, [&](const Edge& edge) {
        return edge.place != place &&
               std::find(places.begin(), places.end(), edge.place) == places.end();
    });
    std::stable_sort(edges.begin(), edges.end(), [&](const Edge& a, const Edge& b) {
        return (a.place == place) > (b.place == place);
    });
    if (edges.empty() || edges.front().place != place) return ways;
    add_present_lights(bench, edges.front(), ways);
    const bool merges =
        edge_verdict(edges.front().inside.tone, edges.front().outside.tone) == EdgeVerdict::merges;
    if (bench.searches && merges && of_head(place)) add_new_lights(bench, edges, others, ways);
    add_background(bench, edges.front(), ways);
    return ways;
}

} // namespace keystead
