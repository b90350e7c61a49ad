#include "engine/render/edge_agreement.h"

#include "sim/light/colour.h"
#include "sim/light/exposure.h"
#include "sim/light/stops.h"
#include "sim/review/outline.h"
#include "sim/review/sight.h"
#include "sim/review/tone.h"
#include "sim/transport/reference.h"

#include <algorithm>
#include <array>
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

/// Places of one side whose pixels are traced.
struct Asked {
    std::vector<ReferenceSquare> squares;
    std::vector<std::size_t> owners; ///< of each square: which point of the side it stands for
};

/// Pixels beside each point along the outline, where they show what the point shows: hair and cloth
/// are uneven to within a fibre, and a review's point stands for the mean.
Asked asked_of(const Studio& studio, const View& view, const EdgeComparisonOptions& options,
               const EdgeSide& read, const Vec2& along) {
    constexpr std::array<double, 5> beside_m{-0.004, -0.002, 0.0, 0.002, 0.004};
    Asked asked;
    for (std::size_t i = 0; i < read.points.size(); ++i)
        for (const double beside : beside_m) {
            const Vec3 place = read.points[i].position_m +
                               beside * (along.x * view.axes[0] + along.y * view.axes[1]);
            const Vec3 direction = glm::normalize(place - view.eye_m);
            RayHit hit;
            if (!studio.rays->first_hit(view.eye_m, direction, sight_start_m, 1e3, ray_mask::all,
                                        hit))
                continue;
            const ScenePart& part = studio.scene.parts[hit.mesh];
            if (part.owner != read.owner || part.part != read.part) continue;
            Vec2 pixel;
            project(view, options.width_px, options.height_px, place, pixel);
            asked.squares.push_back({side * static_cast<int>(std::floor(pixel.x)),
                                     side * static_cast<int>(std::floor(pixel.y))});
            asked.owners.push_back(i);
        }
    return asked;
}

Tone tone_of(std::span<const ReferenceMean> means, const Asked& asked, std::size_t points,
             double camera_lx_s) {
    std::vector<double> count(points, 0.0);
    for (const std::size_t owner : asked.owners) count[owner] += 1.0;
    const auto used = static_cast<double>(
        std::count_if(count.begin(), count.end(), [](double n) { return n > 0.0; }));
    Tone tone;
    double squared = 0.0;
    for (std::size_t i = 0; i < means.size(); ++i) {
        const double weight = pi / (camera_lx_s * used * count[asked.owners[i]]);
        tone.mean += weight * luminance(Vec3(means[i].radiance));
        const double error = weight * luminance(Vec3(means[i].standard_error));
        squared += error * error;
    }
    tone.error = std::sqrt(squared);
    return tone;
}

SideAgreement side_of(const EdgeSide& read, const Tone& tone) {
    const double to_stops = tone.mean > 0.0 ? 1.0 / (tone.mean * std::log(2.0)) : 0.0;
    const std::string is = read.owner == "subject" ? read.part : read.owner + " " + read.part;
    return {is, stops_from_card(read.tone), stops_from_card(tone.mean), tone.error * to_stops};
}

/// Unit, to the right and up of the picture: along the outline.
Vec2 along_outline(const View& view, const Edge& edge) {
    const Vec3 out = edge.outside.points.front().position_m - edge.inside.points.front().position_m;
    // Seen from the eye: what lies behind is farther off, not farther out.
    const Vec3 inside = edge.inside.points.front().position_m - view.eye_m;
    const Vec3 outside = inside + out;
    const auto at = [&view](const Vec3& way) {
        return Vec2(glm::dot(way, view.axes[0]), glm::dot(way, view.axes[1])) /
               -glm::dot(way, view.axes[2]);
    };
    const Vec2 across = glm::normalize(at(outside) - at(inside));
    return {-across.y, across.x};
}

std::vector<Vec2> shares_of(const View& view, const EdgeSide& read) {
    std::vector<Vec2> places;
    for (const SurfacePoint& point : read.points) {
        Vec2 place;
        project(view, 1, 1, point.position_m, place);
        places.push_back(place);
    }
    return places;
}

} // namespace

std::vector<EdgeAgreement> compare_edges(const Studio& studio,
                                         const EdgeComparisonOptions& options) {
    const View view = lens_view(studio.set.camera, options.width_px, options.height_px);
    const std::vector<Edge> read = outline_edges(studio);
    std::vector<Asked> asked; // inside and outside of each place in turn
    std::vector<ReferenceSquare> squares;
    for (const Edge& edge : read)
        for (const EdgeSide* one : {&edge.inside, &edge.outside}) {
            asked.push_back(asked_of(studio, view, options, *one, along_outline(view, edge)));
            squares.insert(squares.end(), asked.back().squares.begin(), asked.back().squares.end());
        }
    ReferenceOptions wanted;
    wanted.width_px = side * options.width_px;
    wanted.height_px = side * options.height_px;
    wanted.samples = std::max(2, options.samples / (side * side));
    wanted.bounces = options.bounces;
    const std::vector<ReferenceMean> means = trace_squares(studio, view, wanted, squares);
    std::vector<EdgeAgreement> edges;
    std::size_t next = 0;
    const auto take = [&](const EdgeSide& one, const Asked& its) {
        const std::span<const ReferenceMean> here(means.data() + next, its.squares.size());
        next += its.squares.size();
        return side_of(one,
                       tone_of(here, its, one.points.size(), camera_exposure_lx_s(studio.set)));
    };
    for (std::size_t i = 0; i < read.size(); ++i) {
        EdgeAgreement edge;
        edge.place = read[i].place;
        edge.inside = take(read[i].inside, asked[2 * i]);
        edge.outside = take(read[i].outside, asked[2 * i + 1]);
        edge.inside_at = shares_of(view, read[i].inside);
        edge.outside_at = shares_of(view, read[i].outside);
        edges.push_back(std::move(edge));
    }
    return edges;
}

} // namespace keystead
