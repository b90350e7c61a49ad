// Glasses: what each lens shows the camera, and how far that must move to be gone.
#include "sim/light/face_meeting.h"
#include "sim/portrait/lens_mirror.h"
#include "sim/review/column_moves.h"
#include "sim/review/glasses_ways.h"
#include "sim/review/mirrored.h"
#include "sim/review/passes.h"
#include "sim/review/tone.h"
#include "sim/shape/content_key.h"
#include "sim/subject/lens.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace keystead {

namespace {

/// A mirror image darker than this over black disturbs nobody (judgement of ours: code 39).
constexpr double least_tone = 0.02;
/// Rays leave the lens from this far outside it, clear of the rim's inner edge.
constexpr double clear_m = 1e-3;

struct Lens {
    const char* name = "left";
    LensSurface surface;
    std::vector<LensRay> rays;
};

std::array<Lens, 2> worn_lenses(const Bench& bench) {
    const auto& surfaces = bench.studio.subject->lens_surfaces;
    const Vec3& eye = bench.sight.frame.eye_m;
    return {{{"left", surfaces[0], lens_rays(surfaces[0], eye)},
             {"right", surfaces[1], lens_rays(surfaces[1], eye)}}};
}

ContentKey& add(ContentKey& key, const LensSurface& lens) {
    return key.add(lens.middle_m)
        .add(lens.axes)
        .add(lens.radius_m)
        .add(lens.half_width_m)
        .add(lens.half_height_m);
}

/// Share of the lens that shows the thing, and the mean cosine there; both ways open.
std::array<double, 2> seen_share(const Bench& bench, const Lens& lens, const Emitter& face) {
    std::vector<Segment> ways;
    std::vector<double> cosines;
    int inner = 0;
    for (const LensRay& ray : lens.rays) {
        if (!ray.inner) continue;
        ++inner;
        const auto met = meet_face(face, ray.from_m, ray.direction);
        if (!met || radiance(face, met->point, -ray.direction) <= 0.0) continue;
        const Vec3 from = ray.from_m + clear_m * ray.normal;
        ways.push_back({from, met->point.position_m});
        ways.push_back({from, bench.sight.frame.eye_m});
        cosines.push_back(std::abs(glm::dot(ray.direction, ray.normal)));
    }
    std::vector<std::uint8_t> blocked(ways.size());
    bench.studio.rays->blocked_many(ways, ray_mask::casters | ray_mask::background, blocked, 2e-3);
    double cosine = 0.0;
    int seen = 0;
    for (std::size_t i = 0; i < cosines.size(); ++i) {
        if (blocked[2 * i] != 0 || blocked[2 * i + 1] != 0) continue;
        cosine += cosines[i];
        ++seen;
    }
    if (seen == 0) return {0.0, 1.0};
    return {static_cast<double>(seen) / inner, cosine / seen};
}

/// Share, cosine, and the four ways out: up, down, camera left, camera right. Empty: not seen.
const std::vector<double>& mirrored_in(const Bench& bench, const Lens& lens,
                                       const Mirrored& thing) {
    ProbeMemory& memory = *bench.aids.memory;
    const Shades& shades = memory.keys().shades;
    const Vec3& eye = bench.sight.frame.eye_m;
    const Extent at_lens{lens.surface.middle_m, Vec3(0.04)};
    ContentKey key;
    add(key.add("glare").add(thing.key).add(eye), lens.surface);
    key.add(shades.between(extent_of(thing.face), at_lens));
    key.add(shades.between({eye, Vec3(0.0)}, at_lens));
    return memory.values(key.value(), [&]() -> std::vector<double> {
        Emitter lit = thing.face;
        lit.power = 1.0;
        const auto [share, cosine] = seen_share(bench, lens, lit);
        if (share <= 0.0) return {};
        const Vec3 up(0.0, 1.0, 0.0);
        const Vec3 flat = glm::cross(lit.centre_m - lens.surface.middle_m, up);
        const Vec3 across = glm::length(flat) > 1e-6 ? glm::normalize(flat) : Vec3(1.0, 0.0, 0.0);
        std::vector<double> values{share, cosine};
        // Seen from the camera: + about the vertical goes from the camera's axis to its right.
        for (const Vec3& axis : {across, -across, -up, up})
            values.push_back(clear_angle_deg(lens.rays, lit, lens.surface.middle_m, axis));
        return values;
    });
}

std::optional<double> or_none(double angle_deg) {
    return angle_deg >= 0.0 ? std::optional<double>(angle_deg) : std::nullopt;
}

void add_glare(const Bench& bench, const Lens& lens, const Mirrored& thing,
               std::vector<GlareReview>& list) {
    const std::vector<double>& v = mirrored_in(bench, lens, thing);
    if (v.empty()) return;
    const double tone = mirror_tone(bench, thing, plate_reflectance(v[1]));
    if (tone < least_tone) return;
    list.push_back({lens.name, thing.face.light, thing.panel, 100.0 * v[0], code_8bit(tone),
                    or_none(v[2]), or_none(v[3]), or_none(v[4]), or_none(v[5])});
}

/// Of the things that glare and stay where they are.
std::optional<double> clear_tilt_deg(const Bench& bench, const std::array<Lens, 2>& lenses,
                                     const std::vector<const Mirrored*>& glaring) {
    const Vec3& eye = bench.sight.frame.eye_m;
    const Vec3 left = bench.studio.subject->head_axes[0];
    ContentKey key;
    key.add("glare tilt").add(eye).add(left);
    for (const Lens& lens : lenses) add(key, lens.surface);
    for (const Mirrored* thing : glaring) key.add(thing->key);
    const auto clear = [&](double tilt_deg) {
        return std::none_of(lenses.begin(), lenses.end(), [&](const Lens& lens) {
            const auto rays = lens_rays(tipped(lens.surface, left, tilt_deg), eye);
            return std::any_of(glaring.begin(), glaring.end(),
                               [&](const Mirrored* thing) { return shows(rays, thing->face); });
        });
    };
    const std::vector<double>& found =
        bench.aids.memory->values(key.value(), [&]() -> std::vector<double> {
            constexpr double step_deg = 0.5, most_deg = 15.0;
            for (double tilt = step_deg; tilt <= most_deg; tilt += step_deg)
                for (const double way : {tilt, -tilt})
                    if (clear(way)) return {way};
            return {};
        });
    return found.empty() ? std::nullopt : std::optional<double>(found.front());
}

} // namespace

GlassesReview review_glasses(const Bench& bench, const std::vector<PanelReview>& panels) {
    GlassesReview review;
    if (bench.studio.subject->lenses == nullptr) return review;
    const std::array<Lens, 2> lenses = worn_lenses(bench);
    for (const Lens& lens : lenses) {
        if (lens.rays.empty()) continue;
        const LensSpread spread = lens_spread(lens.surface, bench.sight.frame.eye_m);
        review.lenses.push_back(
            {lens.name, angles_of(spread.middle), spread.half_across_deg, spread.half_up_deg});
    }
    std::vector<const Mirrored*> glaring;
    const std::vector<Mirrored> things = mirrored_things(bench, panels);
    for (const Mirrored& thing : things) {
        const std::size_t before = review.glare.size();
        for (const Lens& lens : lenses) add_glare(bench, lens, thing, review.glare);
        if (review.glare.size() > before) glaring.push_back(&thing);
    }
    if (!glaring.empty()) review.clear_by_tilt_deg = clear_tilt_deg(bench, lenses, glaring);
    std::stable_sort(
        review.glare.begin(), review.glare.end(),
        [](const GlareReview& a, const GlareReview& b) { return a.area_percent > b.area_percent; });
    return review;
}

std::optional<double> raise_for_glasses_m(const Bench& bench, std::size_t light) {
    const Studio& studio = bench.studio;
    const Light& meant = studio.set.lights[light];
    const Column& column = meant.support.column;
    const std::array<Lens, 2> lenses = worn_lenses(bench);
    constexpr double step_m = 0.02, under_ceiling_m = 0.05;
    for (double up = step_m; column.height_m + up <= column.max_height_m + 1e-9; up += step_m) {
        const Emitter face = with_column_raised(studio, light, up);
        const double top_m =
            face.centre_m.y + 0.5 * face.height_m * std::abs(face.axes[1].y) + under_ceiling_m;
        if (top_m > studio.set.room.ceiling_m) return {};
        if (std::none_of(lenses.begin(), lenses.end(),
                         [&](const Lens& lens) { return shows(lens.rays, face); }))
            return up;
    }
    return {};
}

} // namespace keystead
