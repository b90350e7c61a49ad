// Does the outline part from what is behind it: just inside against just outside, as the camera
// sees both.
#include "sim/review/passes.h"
#include "sim/review/tone.h"

#include <array>
#include <cmath>
#include <span>

namespace keystead {

namespace {

/// A place of the outline: a landmark, and which way is out in the picture.
struct Place {
    const char* name;
    Vec3 landmark_m;
    Vec2 out; ///< unit, right and up in the picture
};

std::array<Place, 5> places_of(const Landmarks& marks, const CameraFrame& frame) {
    // The subject's left is camera right while facing the camera, but the head may be turned.
    const auto across = [&](const Vec3& left, const Vec3& right) {
        return glm::dot(left - right, frame.axes[0]) >= 0.0 ? 1.0 : -1.0;
    };
    const double hair = across(marks.hair_left, marks.hair_right);
    return {{{"head_top", marks.hair_top, {0, 1}},
             {"hair_left", marks.hair_left, {hair, 0}},
             {"hair_right", marks.hair_right, {-hair, 0}},
             {"shoulder_left", marks.acromion_left, {0, 1}},
             {"shoulder_right", marks.acromion_right, {0, 1}}}};
}

/// Directions from the camera through points of the picture, measured in metres at the landmark.
class Line {
public:
    Line(const CameraFrame& frame, const Place& place)
        : eye_m_(frame.eye_m)
        , start_m_(place.landmark_m)
        , step_(place.out.x * frame.axes[0] + place.out.y * frame.axes[1]) {}
    Vec3 direction(double out_m) const { return glm::normalize(start_m_ + out_m * step_ - eye_m_); }

private:
    Vec3 eye_m_, start_m_, step_;
};

bool sees_subject(const Bench& bench, const Vec3& direction) {
    RayHit hit;
    return see(bench, direction, ray_mask::subject, hit);
}

/// How far out the subject ends; searched both ways from the landmark, then halved to 0.3 mm.
std::optional<double> outline_m(const Bench& bench, const Line& line) {
    constexpr double coarse_m = 0.01, farthest_m = 0.25, fine_m = 3e-4;
    double inside = -farthest_m, outside = farthest_m;
    bool found = false;
    // From far outside inward: the first that is subject is the outer outline.
    for (double at = farthest_m; at >= -farthest_m && !found; at -= coarse_m) {
        if (sees_subject(bench, line.direction(at))) {
            inside = at;
            found = true;
        } else {
            outside = at;
        }
    }
    if (!found || inside >= farthest_m) return {};
    while (outside - inside > fine_m) {
        const double middle = 0.5 * (inside + outside);
        (sees_subject(bench, line.direction(middle)) ? inside : outside) = middle;
    }
    return 0.5 * (inside + outside);
}

/// Mean over the steps that show the subject (`inside`) or do not, of the surface that makes the
/// outline: a wisp of hair is not averaged with the temple beneath. Where gear stands before the
/// subject the outline cannot be judged.
std::optional<double> mean_tone(const Bench& bench, const Line& line, double edge_m, bool inside,
                                std::span<const double> steps_m) {
    double sum = 0.0;
    int count = 0;
    std::string outline;
    for (const double step : steps_m) {
        const Vec3 direction = line.direction(edge_m + (inside ? -step : step));
        if (sees_subject(bench, direction) != inside) continue;
        RayHit hit;
        if (!see(bench, direction, ray_mask::all, hit) ||
            (bench.studio.scene.parts[hit.mesh].owner == "subject") != inside)
            continue;
        const std::string& part = bench.studio.scene.parts[hit.mesh].part;
        if (inside && !outline.empty() && part != outline) continue;
        outline = part;
        sum += tone_of_hit(bench, hit, direction);
        ++count;
    }
    if (count == 0) return {};
    return sum / count;
}

} // namespace

std::vector<SeparationReview> review_separation(const Bench& bench) {
    // A rim of light is some millimetres wide: that much is averaged, as the eye does.
    constexpr std::array<double, 4> inward_m{0.002, 0.005, 0.009, 0.014};
    constexpr std::array<double, 3> outward_m{0.006, 0.015, 0.025};
    std::vector<SeparationReview> result;
    for (const Place& place : places_of(bench.marks, bench.sight.frame)) {
        Vec2 at;
        const bool shown = in_picture(bench.sight.frame, place.landmark_m, at) &&
                           std::abs(at.x) <= 1.0 && std::abs(at.y) <= 1.0;
        if (!shown) continue;
        const Line line(bench.sight.frame, place);
        const std::optional<double> edge = outline_m(bench, line);
        if (!edge) continue;
        const auto inside = mean_tone(bench, line, *edge, true, inward_m);
        const auto outside = mean_tone(bench, line, *edge, false, outward_m);
        if (!inside || !outside) continue;
        SeparationReview review;
        review.place = place.name;
        review.inside_stops = stops_from_card(*inside);
        review.outside_stops = stops_from_card(*outside);
        review.difference_stops = review.inside_stops - review.outside_stops;
        review.difference_lstar = lightness(*inside) - lightness(*outside);
        review.verdict = word_of(edge_verdict(*inside, *outside));
        result.push_back(std::move(review));
    }
    return result;
}

} // namespace keystead
