// Does the outline part from what is behind it: luminance just inside against just outside, as the
// camera sees it. Diffuse reflection only; gloss along hair is on top of this.
#include "sim/review/passes.h"

#include "sim/light/exposure.h"
#include "sim/light/sensor.h"
#include "sim/light/stops.h"
#include "sim/review/luminance.h"
#include "sim/review/sight.h"

#include <algorithm>
#include <cmath>

namespace keystead {

namespace {

struct OutlinePlace {
    const char* name;
    Vec2 direction;   ///< in the frame: where outside is
    double from_chin; ///< search band, in face heights above the chin
    double to_chin;
};

constexpr double parts_lstar = 10.0, weak_lstar = 4.0;

double mean_stops(const Studio& studio, const Seen& seen) {
    const double albedo = luminous_albedo(*seen.part, seen.hit);
    const double exposure = total_exposure_lx_s(studio, seen.point_m + 0.002 * seen.normal,
                                                seen.normal, ray_mask::casters, 32);
    return stops_over_card(albedo, exposure, studio.set.camera, studio.set.meter);
}

double lstar_of_stops(double stops) {
    return cie_lightness(std::min(1.0, 0.18 * std::exp2(stops)));
}

bool is_subject(const Seen& seen) {
    return seen.part->owner == "subject";
}

/// Walks outward in the frame from `start` until the subject ends; the last point inside.
std::optional<Vec2> edge_from(const Studio& studio, const Sight& sight, Vec2 start,
                              const Vec2& step) {
    std::optional<Vec2> last;
    for (int i = 0; i < 400; ++i, start += step) {
        const auto seen = see(studio, sight, ray_through(sight, start.x, start.y));
        if (!seen || !is_subject(*seen)) return last;
        last = start;
    }
    return std::nullopt;
}

std::optional<SeparationReview> measure(const Studio& studio, const Sight& sight,
                                        const std::string& place, const Vec2& start,
                                        const Vec2& outward) {
    // Frame units per 4 mm at the subject.
    const double depth_m = glm::dot(studio.subject->landmarks.face - sight.eye_m, sight.ahead);
    const Vec2 millimetre(0.001 / (depth_m * sight.tan_half_width),
                          0.001 / (depth_m * sight.tan_half_height));
    const auto edge = edge_from(studio, sight, start, 4.0 * outward * millimetre);
    if (!edge) return std::nullopt;
    SeparationReview review;
    review.place = place;
    const auto band = [&](double from_mm, double to_mm, bool inside) -> std::optional<double> {
        double sum = 0.0;
        int count = 0;
        for (int i = 0; i < 5; ++i) {
            const Vec2 at = *edge + outward * millimetre * (from_mm + (to_mm - from_mm) * i / 4.0);
            const auto seen = see(studio, sight, ray_through(sight, at.x, at.y));
            if (!seen || is_subject(*seen) != inside) continue;
            sum += std::exp2(mean_stops(studio, *seen));
            ++count;
        }
        if (count == 0) return std::nullopt;
        return std::log2(sum / count);
    };
    const auto inside = band(-14.0, -1.0, true);
    const auto outside = band(6.0, 30.0, false);
    if (!inside || !outside) return std::nullopt;
    review.inside_stops = *inside;
    review.outside_stops = *outside;
    review.difference_stops = *inside - *outside;
    review.difference_lstar = lstar_of_stops(*inside) - lstar_of_stops(*outside);
    const double contrast = std::abs(review.difference_lstar);
    review.verdict = contrast >= parts_lstar ? "parts" : contrast >= weak_lstar ? "weak" : "merges";
    return review;
}

} // namespace

std::vector<SeparationReview> review_separation(const Studio& studio) {
    const Sight sight = sight_of(studio.set.camera);
    const Landmarks& at = studio.subject->landmarks;
    const auto middle = [](const Vec3& a, const Vec3& b) { return 0.5 * (a + b); };
    const Vec3 head_centre = middle(at.tragion_left, at.tragion_right);
    const Vec3 crown = middle(at.vertex, at.glabella);
    const Vec3 shoulders = middle(at.acromion_left, at.acromion_right);
    struct Start {
        const char* place;
        Vec3 from_m;
        Vec2 outward;
    };
    const Vec3 below_shoulder(0.0, -0.04, 0.0);
    // Camera left and right, as the report's reader sees the picture.
    const bool left_is_right = glm::dot(at.acromion_left - at.acromion_right, sight.right) > 0.0;
    const Vec3 right_shoulder = left_is_right ? at.acromion_left : at.acromion_right;
    const Vec3 left_shoulder = left_is_right ? at.acromion_right : at.acromion_left;
    const Start starts[] = {
        {"head_top", crown, {0.0, 1.0}},
        {"hair_left", head_centre + 0.6 * (at.vertex - head_centre), {-1.0, 0.0}},
        {"hair_right", head_centre + 0.6 * (at.vertex - head_centre), {1.0, 0.0}},
        {"shoulder_left", middle(left_shoulder, shoulders) + below_shoulder, {-0.6, 0.8}},
        {"shoulder_right", middle(right_shoulder, shoulders) + below_shoulder, {0.6, 0.8}},
    };
    std::vector<SeparationReview> reviews;
    for (const Start& start : starts) {
        const auto from = frame_point(sight, start.from_m);
        if (!from || std::abs(from->x) > 1.0 || std::abs(from->y) > 1.0) continue;
        if (auto review = measure(studio, sight, start.place, *from, start.outward))
            reviews.push_back(*review);
    }
    return reviews;
}

} // namespace keystead
