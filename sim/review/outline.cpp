#include "sim/review/outline.h"

#include "sim/review/tone.h"

#include <algorithm>
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

std::array<Place, 9> places_of(const Landmarks& marks, const CameraFrame& frame) {
    // The subject's left is camera right while facing the camera, but the head may be turned.
    const auto across = [&](const Vec3& left, const Vec3& right) {
        return glm::dot(left - right, frame.axes[0]) >= 0.0 ? 1.0 : -1.0;
    };
    const double hair = across(marks.hair_left, marks.hair_right);
    const double ear = across(marks.tragion_left, marks.tragion_right);
    const double arm = across(marks.acromion_left, marks.acromion_right);
    constexpr double down_the_arm_m = 0.16;
    const Vec3 down(0.0, -down_the_arm_m, 0.0);
    return {{{"head_top", marks.hair_top, {0, 1}},
             {"hair_left", marks.hair_left, {hair, 0}},
             {"hair_right", marks.hair_right, {-hair, 0}},
             {"ear_left", marks.tragion_left, {ear, 0}},
             {"ear_right", marks.tragion_right, {-ear, 0}},
             {"shoulder_left", marks.acromion_left, {0, 1}},
             {"shoulder_right", marks.acromion_right, {0, 1}},
             {"arm_left", marks.acromion_left + down, {arm, 0}},
             {"arm_right", marks.acromion_right + down, {-arm, 0}}}};
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

/// What the steps meet that show the subject (`inside`) or do not, of the surface that makes the
/// outline: a wisp of hair is not averaged with the temple beneath. Where gear stands before the
/// subject the outline cannot be judged.
EdgeSide gather(const Bench& bench, const Line& line, double edge_m, bool inside,
                std::span<const double> steps_m) {
    EdgeSide side;
    std::string outline;
    for (const double step : steps_m) {
        const Vec3 direction = line.direction(edge_m + (inside ? -step : step));
        if (sees_subject(bench, direction) != inside) continue;
        RayHit hit;
        if (!see(bench, direction, ray_mask::all, hit) ||
            (bench.studio.scene.parts[hit.mesh].owner == "subject") != inside)
            continue;
        const ScenePart& part = bench.studio.scene.parts[hit.mesh];
        if (inside && !outline.empty() && part.part != outline) continue;
        outline = part.part;
        side.owner = part.owner;
        side.part = part.part;
        side.points.push_back(surface_at(bench.studio, hit, bench.sight.frame.eye_m, direction));
        const SeenTone seen = tone_of_hit(bench, hit, direction);
        side.glossy.push_back(glossy_point(bench.studio, hit, side.points.back(), direction));
        side.tone += seen.tone;
        side.gloss += seen.gloss;
    }
    const auto count = static_cast<double>(std::max<std::size_t>(1, side.points.size()));
    side.tone /= count;
    side.gloss /= count;
    return side;
}

} // namespace

std::vector<Edge> edges_of(const Bench& bench) {
    // A rim of light is some millimetres wide: that much is averaged, as the eye does.
    constexpr std::array<double, 4> inward_m{0.002, 0.005, 0.009, 0.014};
    constexpr std::array<double, 3> outward_m{0.006, 0.015, 0.025};
    std::vector<Edge> edges;
    for (const Place& place : places_of(bench.marks, bench.sight.frame)) {
        Vec2 at;
        const bool shown = in_picture(bench.sight.frame, place.landmark_m, at) &&
                           std::abs(at.x) <= 1.0 && std::abs(at.y) <= 1.0;
        if (!shown) continue;
        const Line line(bench.sight.frame, place);
        const std::optional<double> found = outline_m(bench, line);
        if (!found) continue;
        Edge edge{place.name, gather(bench, line, *found, true, inward_m),
                  gather(bench, line, *found, false, outward_m)};
        if (!edge.inside.points.empty() && !edge.outside.points.empty())
            edges.push_back(std::move(edge));
    }
    return edges;
}

} // namespace keystead
