// Background tone, spill on background, lens and face, gear in the frame, and room to stand in.
#include "sim/review/passes.h"
#include "sim/review/tone.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

namespace keystead {

namespace {

/// Up to `most` surface points of the background that the picture shows, spread over it.
std::vector<SurfacePoint> background_points(const Bench& bench, std::size_t most) {
    std::vector<std::size_t> cells;
    const Sight& sight = bench.sight;
    for (std::size_t i = 0; i < sight.hits.size(); ++i)
        if (is_background(bench, sight.hits[i])) cells.push_back(i);
    std::vector<SurfacePoint> points;
    const std::size_t count = std::min(most, cells.size());
    for (std::size_t i = 0; i < count; ++i) {
        // Cells run row by row; a step that shares no factor with the row keeps them spread.
        const std::size_t cell = cells[(2 * i + 1) * cells.size() / (2 * count)];
        points.push_back(
            surface_at(bench.studio, sight.hits[cell], sight.frame.eye_m, sight.directions[cell]));
    }
    return points;
}

constexpr std::size_t background_samples = 48;

bool is_light(const Studio& studio, const std::string& owner) {
    return std::any_of(studio.set.lights.begin(), studio.set.lights.end(),
                       [&](const Light& light) { return light.id == owner; });
}

bool is_panel(const Studio& studio, const std::string& owner) {
    return std::any_of(studio.set.panels.begin(), studio.set.panels.end(),
                       [&](const Panel& panel) { return panel.id == owner; });
}

/// Thin parts slip through the grid: a part shows if any of its vertices does.
bool shows(const Bench& bench, const ScenePart& part) {
    constexpr std::size_t most = 400;
    const auto& vertices = part.mesh->positions_m;
    const std::size_t step = std::max<std::size_t>(1, vertices.size() / most);
    for (std::size_t i = 0; i < vertices.size(); i += step) {
        Vec2 at;
        const Vec3 vertex(vertices[i]);
        if (!in_picture(bench.sight.frame, vertex, at)) continue;
        if (std::abs(at.x) > 1.0 || std::abs(at.y) > 1.0) continue;
        constexpr double margin_m = 2e-3;
        if (!bench.studio.rays->blocked(bench.sight.frame.eye_m, vertex, ray_mask::all, margin_m))
            return true;
    }
    return false;
}

/// The walls and the ceiling as planes: clearance is positive inside.
struct Limit {
    const char* name;
    Vec3 inward;
    double offset_m;
    double clearance_m(const Vec3& point_m) const { return glm::dot(inward, point_m) + offset_m; }
};

std::array<Limit, 5> limits_of(const Room& room) {
    return {{{"ceiling", {0, -1, 0}, room.ceiling_m},
             {"left wall", {1, 0, 0}, room.left_of_subject_m},
             {"right wall", {-1, 0, 0}, room.width_m - room.left_of_subject_m},
             {"back wall", {0, 0, 1}, room.behind_subject_m},
             {"wall behind the camera", {0, 0, -1}, room.depth_m - room.behind_subject_m}}};
}

void tighten(RoomReview& review, const ScenePart& part, const std::array<Limit, 5>& limits) {
    for (const glm::vec3& vertex : part.mesh->positions_m)
        for (const Limit& limit : limits) {
            const double clearance = limit.clearance_m(Vec3(vertex));
            if (clearance >= review.clearance_m) continue;
            review.clearance_m = clearance;
            review.nearest = limit.name;
            review.part = part.part;
        }
}

/// What a light sends straight into the lens, read flat toward it.
double into_lens_lx_s(const Bench& bench, std::size_t light) {
    const Vec3& eye = bench.sight.frame.eye_m;
    const Vec3 way = glm::normalize(bench.studio.emitters[light].centre_m - eye);
    // Within 60° of the lens axis: further round, a hood keeps it off the glass.
    if (glm::dot(way, bench.sight.frame.axes[2]) > -0.5) return 0.0;
    const Probe probe{eye - 0.01 * bench.sight.frame.axes[2], way, Receptor::flat,
                      ray_mask::casters | ray_mask::background};
    return exposure_lx_s(bench, light, probe, 64);
}

/// What a light behind the ears gives the tip of the nose and the brighter cheek, by the face's own
/// front; empty for lights in front.
std::vector<std::pair<const char*, double>> on_face_from_behind(const Bench& bench,
                                                                std::size_t light) {
    const Mat3& head = bench.studio.subject->head_axes;
    const Vec3 way = bench.studio.emitters[light].centre_m - bench.marks.face;
    if (std::abs(face_angles(way, head).azimuth_deg) < 90.0) return {};
    const Vec3 toward = glm::normalize(way);
    constexpr double off_skin_m = 2e-3;
    const auto at = [&](const Vec3& place, const Vec3& normal) {
        return exposure_lx_s(
            bench, light, {place + off_skin_m * normal, normal, Receptor::flat, ray_mask::casters},
            34);
    };
    // The wing of the nose on the light's side, and each cheek where it turns to the side.
    const double side = glm::dot(toward, head[0]) > 0.0 ? 1.0 : -1.0;
    const Vec3 wing = glm::normalize(head[2] + side * head[0]);
    const Vec3 cheek = glm::normalize(1.2 * head[2] + side * head[0]);
    return {{"nose", at(bench.marks.pronasale, wing)},
            {"cheek", at(side > 0.0 ? bench.marks.cheek_left : bench.marks.cheek_right, cheek)}};
}

} // namespace

BackgroundLight light_on_background(const Bench& bench) {
    BackgroundLight light;
    for (const SurfacePoint& point : background_points(bench, background_samples)) {
        light.reflectances.push_back(point.reflectance);
        light.exposures_lx_s.push_back(
            total_exposure_lx_s(bench, probe_on(point), room_shared_m, 64));
    }
    return light;
}

BackgroundReview review_background(const Bench& bench, const BackgroundLight& light) {
    BackgroundReview review;
    std::vector<double> exposures = light.exposures_lx_s, tones;
    if (exposures.empty()) return review;
    double tone = 0.0;
    for (std::size_t i = 0; i < exposures.size(); ++i) {
        tones.push_back(light.reflectances[i] * exposures[i] / bench.camera_exposure_lx_s);
        tone += tones.back();
    }
    const auto count = static_cast<double>(exposures.size());
    double sum = 0.0;
    for (const double exposure : exposures) sum += exposure;
    review.stops_from_key = stops_from_key(bench, sum / count);
    review.value_8bit = code_8bit(tone / count);
    std::sort(exposures.begin(), exposures.end());
    // The single darkest and brightest sample say more about the grid of samples than the paper.
    const std::size_t trim = exposures.size() / 20;
    const double low = exposures[trim], high = exposures[exposures.size() - 1 - trim];
    if (low > 0.0) review.evenness_stops = std::log2(high / low);
    std::sort(tones.begin(), tones.end());
    review.darkest_8bit = code_8bit(tones[trim]);
    review.brightest_8bit = code_8bit(tones[tones.size() - 1 - trim]);
    return review;
}

std::vector<SpillReview> review_spill(const Bench& bench) {
    std::vector<SpillReview> spill;
    const std::vector<SurfacePoint> points = background_points(bench, background_samples / 3);
    for (std::size_t i = 0; i < bench.studio.emitters.size(); ++i) {
        const std::string& id = bench.studio.emitters[i].light;
        double sum = 0.0;
        for (const SurfacePoint& point : points)
            sum += exposure_lx_s(bench, i, probe_on(point), 64);
        if (!points.empty())
            if (const auto stops = stops_from_key(bench, sum / static_cast<double>(points.size())))
                spill.push_back({id, "background", *stops});
        if (const auto stops = stops_from_key(bench, into_lens_lx_s(bench, i)))
            spill.push_back({id, "lens", *stops});
        for (const auto& [onto, exposure] : on_face_from_behind(bench, i))
            if (const auto stops = stops_from_key(bench, exposure))
                spill.push_back({id, onto, *stops});
    }
    return spill;
}

std::vector<FrameReview> review_frame(const Bench& bench, ReviewMemory& memory) {
    if (memory.frame) return *memory.frame;
    const Studio& studio = bench.studio;
    std::map<std::pair<std::string, std::string>, double> percent;
    const double cell =
        100.0 / static_cast<double>(std::max<std::size_t>(1, bench.sight.hits.size()));
    const auto counts = [&](const ScenePart& part) {
        return is_light(studio, part.owner) || is_panel(studio, part.owner);
    };
    for (const RayHit& hit : bench.sight.hits) {
        if (hit.mesh == ray_miss) continue;
        const ScenePart& part = studio.scene.parts[hit.mesh];
        if (counts(part)) percent[{part.owner, part.part}] += cell;
    }
    for (const ScenePart& part : studio.scene.parts)
        if (counts(part) && !percent.contains({part.owner, part.part}) && shows(bench, part))
            percent[{part.owner, part.part}] = 0.25 * cell;
    std::vector<FrameReview> result;
    for (const auto& [who, share] : percent) result.push_back({who.first, who.second, share});
    std::stable_sort(result.begin(), result.end(), [](const FrameReview& a, const FrameReview& b) {
        return a.in_frame_percent > b.in_frame_percent;
    });
    memory.frame = result;
    return result;
}

std::vector<RoomReview> review_room(const Studio& studio) {
    const std::array<Limit, 5> limits = limits_of(studio.set.room);
    std::vector<RoomReview> result;
    const auto add = [&](const std::string& id) {
        RoomReview review{id, "", 1e9, ""};
        for (const ScenePart& part : studio.scene.parts)
            if (part.owner == id && part.part != "cable") tighten(review, part, limits);
        if (!review.part.empty()) result.push_back(std::move(review));
    };
    for (const Light& light : studio.set.lights) add(light.id);
    for (const Panel& panel : studio.set.panels) add(panel.id);
    return result;
}

} // namespace keystead
