// Lights from behind against the lens, and shadows of the head on the background.
#include "sim/light/grid.h"
#include "sim/meter/meter_point.h"
#include "sim/review/passes.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace keystead {

namespace {

double angle_deg(const Vec3& a, const Vec3& b) {
    return degrees(
        std::acos(std::clamp(glm::dot(glm::normalize(a), glm::normalize(b)), -1.0, 1.0)));
}

/// Beyond this from its beam a face sends nothing.
std::optional<double> cut_off_deg(const Emitter& emitter) {
    std::optional<double> cut;
    if (emitter.grid) cut = cutoff_half_angle_deg(cell_ratio(*emitter.grid));
    if (emitter.beam.cutoff_half_deg < 90.0)
        cut = std::min(cut.value_or(90.0), emitter.beam.cutoff_half_deg);
    return cut;
}

double into_lens_of(const Review& review, const std::string& light, bool& found) {
    for (const SpillReview& spill : review.spill)
        if (spill.light == light && spill.onto == "lens") {
            found = true;
            return spill.stops_from_key;
        }
    found = false;
    return 0.0;
}

/// The plane that the background hangs in, from the sitter: depth of it, and how high it reaches.
struct Backdrop {
    double z_m = 0.0;
};

Backdrop backdrop_of(const Set& set) {
    const bool hung = set.background.kind != BackgroundKind::none;
    return {hung ? -set.background.distance_m : -set.room.behind_subject_m};
}

/// Where a line from a light past a place of the head meets that plane.
std::optional<Vec3> thrown(const Vec3& light_m, const Vec3& place_m, const Backdrop& backdrop) {
    const Vec3 way = place_m - light_m;
    if (way.z >= -1e-3) return {};
    const Vec3 at = light_m + (backdrop.z_m - light_m.z) / way.z * way;
    return at.y > 0.0 ? std::optional<Vec3>(at) : std::nullopt;
}

/// Head's middle and a ring about it, square to the light.
std::vector<Vec3> head_outline(const Bench& bench, const Vec3& light_m) {
    constexpr double radius_m = 0.10;
    constexpr int around = 12;
    const Vec3 middle = 0.5 * (bench.marks.vertex + bench.marks.menton);
    const Vec3 way = glm::normalize(middle - light_m);
    const Vec3 across = glm::normalize(glm::cross(way, Vec3(0.0, 1.0, 0.0)));
    const Vec3 up = glm::cross(across, way);
    std::vector<Vec3> places{middle};
    for (int i = 0; i < around; ++i) {
        const double turn = 2.0 * pi * i / around;
        places.push_back(middle + radius_m * (std::cos(turn) * across + std::sin(turn) * up));
    }
    return places;
}

/// Does the picture show that place of the background?
bool shown(const Bench& bench, const Vec3& place_m) {
    Vec2 at;
    if (!in_picture(bench.sight.frame, place_m, at) || std::abs(at.x) > 1.0 || std::abs(at.y) > 1.0)
        return false;
    RayHit hit;
    return see(bench, ray_through(bench.sight.frame, at.x, at.y), ray_mask::all, hit) &&
           is_background(bench, hit);
}

/// How much darker the shadow is than the background about it, stops.
double depth_stops(const Bench& bench, std::size_t light, const Vec3& place_m) {
    const Vec3 normal(0.0, 0.0, 1.0);
    const Probe open{place_m + 2e-3 * normal, normal, Receptor::flat,
                     ray_mask::gear | ray_mask::panel};
    Probe real = open;
    real.blockers = ray_mask::casters;
    const double own = direct_lx_s(bench.studio, bench.aids, light, open, 34);
    double others = room_light_lx_s(bench.studio.set);
    for (std::size_t i = 0; i < bench.studio.emitters.size(); ++i)
        if (i != light) others += direct_lx_s(bench.studio, bench.aids, i, real, 34);
    const double left = own - std::min(own, direct_lx_s(bench.studio, bench.aids, light, real, 34));
    const double all = own + others;
    if (all <= 0.0 || left <= 0.0) return 0.0;
    constexpr double deepest = 12.0;
    return all - left > 0.0 ? std::min(deepest, std::log2(all / (all - left))) : deepest;
}

} // namespace

std::vector<LensAim> review_lens_aims(const Bench& bench, const Review& review) {
    std::vector<LensAim> aims;
    for (std::size_t i = 0; i < bench.studio.emitters.size(); ++i) {
        const Emitter& emitter = bench.studio.emitters[i];
        const Vec3 way = bench.sight.frame.eye_m - emitter.centre_m;
        // Behind the plane of the face, as the camera sees it: nothing else can look back at it.
        if (emitter.power <= 0.0 ||
            glm::dot(emitter.centre_m - bench.marks.face, bench.sight.frame.axes[2]) > 0.0)
            continue;
        LensAim aim;
        aim.light = emitter.light;
        aim.off_beam_deg = angle_deg(way, emitter.axes[2]);
        aim.cut_off_deg = cut_off_deg(emitter);
        if (aim.cut_off_deg) aim.misses_by_deg = aim.off_beam_deg - *aim.cut_off_deg;
        const double stops = into_lens_of(review, aim.light, aim.hits);
        // What a grid's walls let through is nothing to a lens: less than a five-hundredth of the
        // key.
        constexpr double least_stops = -9.0;
        aim.hits = aim.hits && stops >= least_stops;
        if (aim.hits) aim.stops_from_key = stops;
        aims.push_back(aim);
    }
    return aims;
}

std::vector<BackgroundShadow> review_shadows(const Bench& bench) {
    std::vector<BackgroundShadow> shadows;
    const Backdrop backdrop = backdrop_of(bench.studio.set);
    for (std::size_t i = 0; i < bench.studio.emitters.size(); ++i) {
        const Emitter& emitter = bench.studio.emitters[i];
        if (emitter.power <= 0.0) continue;
        const std::vector<Vec3> outline = head_outline(bench, emitter.centre_m);
        const auto middle = thrown(emitter.centre_m, outline.front(), backdrop);
        if (!middle) continue;
        BackgroundShadow shadow;
        shadow.light = emitter.light;
        shadow.aside_m = middle->x - outline.front().x;
        shadow.down_m = outline.front().y - middle->y;
        for (const Vec3& place : outline) {
            const auto at = thrown(emitter.centre_m, place, backdrop);
            if (!at || !shown(bench, *at)) continue;
            shadow.in_frame = true;
            shadow.depth_stops = std::max(shadow.depth_stops, depth_stops(bench, i, *at));
        }
        shadows.push_back(shadow);
    }
    return shadows;
}

} // namespace keystead
