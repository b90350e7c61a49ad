// Does the outline part from what is behind it, and why not.
#include "sim/review/outline.h"
#include "sim/review/passes.h"
#include "sim/review/say.h"
#include "sim/review/tone.h"

#include <cmath>

namespace keystead {

namespace {

double mean_reflectance(const EdgeSide& side) {
    double sum = 0.0;
    for (const SurfacePoint& point : side.points) sum += point.reflectance;
    return sum / static_cast<double>(side.points.size());
}

/// What a viewer would call the thing.
std::string name_of_side(const Bench& bench, const EdgeSide& side) {
    if (side.owner == "subject") return side.part == "wisps" ? "hair" : side.part;
    if (side.owner == "background")
        return bench.studio.set.background.kind == BackgroundKind::paper ? "paper" : "cloth";
    return side.owner == "room" ? side.part : side.owner;
}

/// The light that gives most of what lies behind, directly and off panels.
std::string mostly_by(const Bench& bench, const EdgeSide& side) {
    double most = 0.0;
    std::string id;
    const std::size_t middle = side.points.size() / 2;
    const Probe probe = probe_on(side.points[middle]);
    for (std::size_t i = 0; i < bench.studio.emitters.size(); ++i) {
        const double light = direct_light(bench, i, side.glossy[middle], probe).given +
                             off_panels_lx_s(bench.studio, bench.aids, i, probe);
        if (light > most) most = light, id = bench.studio.emitters[i].light;
    }
    return id;
}

/// Stops of the light on a surface from the camera's setting, given its tone without gloss.
double light_stops(double tone, double reflectance) {
    return reflectance > 0.0 && tone > 0.0 ? std::log2(tone / reflectance) : -12.0;
}

std::string percent(double reflectance) {
    return say::number(100.0 * reflectance, reflectance < 0.095 ? 1 : 0) + " %";
}

std::string cause_of(const SeparationReview& s, const Edge& edge, const std::string& key) {
    const double inside_tone = edge.inside.tone, outside_tone = edge.outside.tone;
    const double inside = light_stops(inside_tone - edge.inside.gloss, s.inside_reflectance);
    const double outside = light_stops(outside_tone - edge.outside.gloss, s.outside_reflectance);
    std::string text = s.inside_is + " of " + percent(s.inside_reflectance) + " in light " +
                       say::signed_number(inside, 1) + " stops from the camera's setting, " +
                       s.outside_is + " of " + percent(s.outside_reflectance) + " in " +
                       say::signed_number(outside, 1);
    if (!s.outside_mostly_by.empty())
        text += s.outside_mostly_by == key ? " (spill of " + key + ")"
                                           : " (mostly " + s.outside_mostly_by + ")";
    constexpr double dark_lightness = 15.0;
    if (lightness(inside_tone) < dark_lightness && lightness(outside_tone) < dark_lightness)
        text += ": both drown in black";
    return text;
}

} // namespace

std::vector<SeparationReview> review_separation(const Bench& bench,
                                                const std::vector<Edge>& edges) {
    const std::string key =
        bench.key >= 0 ? bench.studio.emitters[static_cast<std::size_t>(bench.key)].light : "";
    std::vector<SeparationReview> result;
    for (const Edge& edge : edges) {
        const double inside = edge.inside.tone, outside = edge.outside.tone;
        SeparationReview review;
        review.place = edge.place;
        review.inside_stops = stops_from_card(inside);
        review.outside_stops = stops_from_card(outside);
        review.difference_stops = review.inside_stops - review.outside_stops;
        review.difference_lstar = lightness(inside) - lightness(outside);
        review.verdict = word_of(edge_verdict(inside, outside));
        review.inside_is = name_of_side(bench, edge.inside);
        review.outside_is = name_of_side(bench, edge.outside);
        review.inside_reflectance = mean_reflectance(edge.inside);
        review.outside_reflectance = mean_reflectance(edge.outside);
        review.outside_mostly_by = mostly_by(bench, edge.outside);
        if (edge_verdict(inside, outside) != EdgeVerdict::parts)
            review.cause = cause_of(review, edge, key);
        result.push_back(std::move(review));
    }
    return result;
}

} // namespace keystead
