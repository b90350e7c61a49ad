#include "engine/render/edge_agreement.h"

#include "sim/light/colour.h"
#include "sim/light/exposure.h"
#include "sim/light/stops.h"
#include "sim/review/outline.h"
#include "sim/review/tone.h"
#include "sim/transport/reference.h"

#include <algorithm>
#include <cmath>
#include <span>

namespace keystead {

namespace {

/// A pixel is traced as a square of the path tracer's: sixteen strata of it.
constexpr int side = reference_square_px;

/// Mean tone over pixels, see sim/review/tone.h.
struct Tone {
    double mean = 0.0, error = 0.0;
};

double camera_exposure_lx_s(const Set& set) {
    return exposure_of_f_number(exact_f_number(set.camera.f_number), set.camera.iso,
                                set.meter.flat_c_lx_s);
}

Tone tone_of(std::span<const ReferenceMean> pixels, double camera_lx_s) {
    Tone tone;
    double squared = 0.0;
    const auto count = static_cast<double>(pixels.size());
    for (const ReferenceMean& pixel : pixels) {
        const double scale = pi / camera_lx_s;
        tone.mean += std::min(1.0, scale * luminance(pixel.radiance)) / count;
        const double error = scale * luminance(pixel.standard_error) / count;
        squared += error * error;
    }
    tone.error = std::sqrt(squared);
    return tone;
}

SideAgreement side_of(const EdgeSide& read, const Tone& tone) {
    const double to_stops = tone.mean > 0.0 ? 1.0 / (tone.mean * std::log(2.0)) : 0.0;
    const std::string is = read.owner == "subject" ? read.part : read.owner + " " + read.part;
    return {is, stops_from_card(std::min(1.0, read.tone)), stops_from_card(tone.mean),
            tone.error * to_stops};
}

} // namespace

std::vector<EdgeAgreement> compare_edges(const Studio& studio,
                                         const EdgeComparisonOptions& options) {
    const View view = lens_view(studio.set.camera, options.width_px, options.height_px);
    const std::vector<Edge> read = outline_edges(studio);
    std::vector<EdgeAgreement> edges;
    std::vector<ReferenceSquare> squares;
    const auto add = [&](const EdgeSide& points, std::vector<Vec2>& pixels) {
        for (const SurfacePoint& point : points.points) {
            Vec2 pixel;
            project(view, options.width_px, options.height_px, point.position_m, pixel);
            pixels.push_back(pixel);
            squares.push_back({side * static_cast<int>(std::floor(pixel.x)),
                               side * static_cast<int>(std::floor(pixel.y))});
        }
    };
    for (const Edge& place : read) {
        EdgeAgreement edge;
        edge.place = place.place;
        add(place.inside, edge.inside_px);
        add(place.outside, edge.outside_px);
        edges.push_back(std::move(edge));
    }
    ReferenceOptions wanted;
    wanted.width_px = side * options.width_px;
    wanted.height_px = side * options.height_px;
    wanted.samples = std::max(2, options.samples / (side * side));
    wanted.bounces = options.bounces;
    wanted.specular = options.specular;
    const std::vector<ReferenceMean> means = trace_squares(studio, view, wanted, squares);
    const double camera_lx_s = camera_exposure_lx_s(studio.set);
    std::size_t next = 0;
    const auto take = [&](std::size_t count) {
        const std::span<const ReferenceMean> pixels(&means[next], count);
        next += count;
        return tone_of(pixels, camera_lx_s);
    };
    for (std::size_t i = 0; i < edges.size(); ++i) {
        edges[i].inside = side_of(read[i].inside, take(read[i].inside.points.size()));
        edges[i].outside = side_of(read[i].outside, take(read[i].outside.points.size()));
    }
    return edges;
}

} // namespace keystead
