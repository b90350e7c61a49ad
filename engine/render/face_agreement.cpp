#include "engine/render/face_agreement.h"

#include "engine/render/packet_filler.h"
#include "sim/light/colour.h"
#include "sim/portrait/read.h"
#include "sim/review/sight.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace keystead {

namespace limit = face_agreement_limit;

namespace {

/// A place of the chart in the room, as the camera sees it.
struct Spot {
    std::size_t cell = 0;
    Vec3 place_m{0.0};
    int x_px = 0, y_px = 0;
    double reflectance = 0.0;
    bool mixed = false;
};

/// Places of the chart whose sight from the camera ends on them.
std::vector<Spot> spots_in_sight(const Studio& studio, const FaceChart& chart, const Vec3& eye_m) {
    const PosedSubject& posed = *studio.subject;
    std::vector<Spot> spots;
    std::vector<RayQuery> rays;
    for (std::size_t cell = 0; cell < chart.fine.size(); ++cell) {
        if (chart.fine.covered[cell] == 0) continue;
        Spot spot;
        spot.cell = cell;
        spot.place_m =
            posed.head_origin_m + posed.head_axes * chart.metres(chart.fine.place_mm[cell]);
        rays.push_back({eye_m, glm::normalize(spot.place_m - eye_m), sight_start_m, 1e3});
        spots.push_back(spot);
    }
    std::vector<RayHit> hits(rays.size());
    studio.rays->first_hits(rays, ray_mask::all, hits);
    std::vector<Spot> seen;
    for (std::size_t i = 0; i < spots.size(); ++i) {
        if (hits[i].mesh == ray_miss || studio.scene.parts[hits[i].mesh].owner != "subject" ||
            std::abs(hits[i].distance_m - glm::length(spots[i].place_m - eye_m)) > limit::near_m)
            continue;
        spots[i].reflectance = surface_at(studio, hits[i], eye_m, rays[i].direction).reflectance;
        seen.push_back(spots[i]);
    }
    return seen;
}

/// The set's camera, cut to the spots with a border of some pixels.
void frame_spots(const Studio& studio, const std::vector<Spot>& spots, double pixel_mm,
                 FaceComparison& made) {
    constexpr int border_px = 4, unit_px = 1000;
    View view = lens_view(studio.set.camera, unit_px, unit_px);
    Vec2 low(1e9), high(-1e9);
    for (const Spot& spot : spots) {
        const Vec3 local = glm::transpose(view.axes) * (spot.place_m - view.eye_m);
        const Vec2 at(local.x / -local.z, local.y / -local.z);
        low = glm::min(low, at);
        high = glm::max(high, at);
    }
    const double away_m = glm::length(studio.subject->landmarks.face - view.eye_m);
    const double pixel = 1e-3 * pixel_mm / away_m;
    made.width_px = static_cast<int>(std::ceil((high.x - low.x) / pixel)) + 2 * border_px;
    made.height_px = static_cast<int>(std::ceil((high.y - low.y) / pixel)) + 2 * border_px;
    view.centre = 0.5 * (low + high);
    view.tan_half_width = 0.5 * pixel * made.width_px;
    view.tan_half_height = 0.5 * pixel * made.height_px;
    made.view = view;
}

/// What the middles of pixels see.
struct SeenPlace {
    std::uint32_t part = ray_miss;
    Vec3 position_m{0.0};
};

std::vector<SeenPlace> seen_places(const Studio& studio, const FaceComparison& made) {
    std::vector<RayQuery> rays;
    for (int y = 0; y < made.height_px; ++y)
        for (int x = 0; x < made.width_px; ++x) {
            const Vec2 at(2.0 * (x + 0.5) / made.width_px - 1.0,
                          1.0 - 2.0 * (y + 0.5) / made.height_px);
            rays.push_back(
                {made.view.eye_m, glm::normalize(sight_line(made.view, at)), sight_start_m, 1e3});
        }
    std::vector<RayHit> hits(rays.size());
    studio.rays->first_hits(rays, ray_mask::all, hits);
    std::vector<SeenPlace> seen(rays.size());
    for (std::size_t i = 0; i < rays.size(); ++i)
        if (hits[i].mesh != ray_miss)
            seen[i] = {hits[i].mesh, rays[i].origin_m + hits[i].distance_m * rays[i].direction};
    return seen;
}

/// Finds the pixel of each spot, and whether it stands for it.
void find_pixels(const Studio& studio, const FaceComparison& made, double pixel_mm,
                 std::vector<Spot>& spots) {
    const std::vector<SeenPlace> seen = seen_places(studio, made);
    const double spread_m = 1e-3 * pixel_mm * limit::spread_px;
    for (Spot& spot : spots) {
        Vec2 pixel;
        project(made.view, made.width_px, made.height_px, spot.place_m, pixel);
        spot.x_px = static_cast<int>(pixel.x);
        spot.y_px = static_cast<int>(pixel.y);
        const auto at = [&](int dx, int dy) -> const SeenPlace& {
            return seen[static_cast<std::size_t>((spot.y_px + dy) * made.width_px + spot.x_px +
                                                 dx)];
        };
        for (int dy = -1; dy <= 1; ++dy)
            for (int dx = -1; dx <= 1; ++dx)
                spot.mixed = spot.mixed || at(dx, dy).part != at(0, 0).part ||
                             at(dx, dy).part == ray_miss ||
                             glm::length(at(dx, dy).position_m - spot.place_m) > spread_m;
    }
}

/// The same studio without single strands of hair, which lie before the chart's places and throw no
/// shadow; and, where `shadows` is false, with nothing in it that throws one.
std::shared_ptr<const Studio> studio_for_pictures(const Studio& studio, bool shadows) {
    auto made = std::make_shared<Studio>(studio);
    std::erase_if(made->scene.parts,
                  [](const ScenePart& part) { return (part.mask & ray_mask::strands) != 0; });
    made->rays = std::make_shared<RayScene>(studio.rays->device());
    for (ScenePart& part : made->scene.parts) {
        if (!shadows && (part.mask & ray_mask::emitter) == 0) part.mask = ray_mask::room;
        part.casts = part.casts && shadows;
        made->rays->add(part.mesh, part.mask);
    }
    made->rays->commit();
    return made;
}

/// Luminances of each light alone: direct, matt. Empty for a light that is off.
std::vector<std::vector<double>> pictures_by_light(const std::shared_ptr<const Studio>& studio,
                                                   const FaceComparison& made, int samples) {
    PacketFiller filler;
    RenderOptions matt;
    matt.specular = false;
    filler.set_options(matt);
    filler.show(studio);
    filler.look(made.view, made.width_px, made.height_px);
    while (filler.refine(samples, 4)) {
    }
    std::vector<std::vector<double>> pictures(studio->emitters.size());
    for (std::size_t light = 0; light < pictures.size(); ++light) {
        if (studio->emitters[light].power <= 0.0) continue;
        for (const glm::vec3& pixel : filler.read_linear(static_cast<int>(light)).pixels)
            pictures[light].push_back(static_cast<double>(luminance(pixel)));
    }
    return pictures;
}

/// Owner and part of what stands between a place and the middle of a light.
std::string blocker_of(const Studio& studio, const Vec3& place_m, const Emitter& emitter) {
    const Vec3 way = emitter.centre_m - place_m;
    const double distance = glm::length(way);
    RayHit hit;
    if (!studio.rays->first_hit(place_m, way / distance, 2e-3, distance - 1e-3,
                                ray_mask::casters | ray_mask::background, hit))
        return "none before its middle";
    const ScenePart& part = studio.scene.parts[hit.mesh];
    return part.owner + " " + part.part;
}

FaceVerdict verdict_of(const FaceLight& map, std::size_t cell, double shadowed, double open,
                       double plate_luminance) {
    const double open_level = map.open_level[cell];
    const double seen = open_level > 0.0 ? map.level[cell] / open_level : 0.0;
    if (open_level > 0.0 && open_level < limit::grazing) return FaceVerdict::penumbra;
    if (seen > limit::shadow && seen < limit::lit) return FaceVerdict::penumbra;
    const bool map_lit = seen >= limit::lit;
    const bool picture_lit = open > limit::none * plate_luminance && shadowed > limit::half * open;
    if (map_lit) return picture_lit ? FaceVerdict::both_lit : FaceVerdict::only_map_lit;
    return picture_lit ? FaceVerdict::only_picture_lit : FaceVerdict::both_dark;
}

FaceAgreement compare_light(const Studio& studio, const Emitter& emitter, const FaceLight& map,
                            const std::vector<Spot>& spots, const FaceComparison& made,
                            const std::vector<double>& shadowed, const std::vector<double>& open) {
    FaceAgreement found;
    found.light = emitter.light;
    for (const Spot& spot : spots) {
        const auto at = static_cast<std::size_t>(spot.y_px * made.width_px + spot.x_px);
        FacePlace place;
        place.cell = spot.cell;
        place.x_px = spot.x_px;
        place.y_px = spot.y_px;
        const double open_level = map.open_level[spot.cell];
        place.map_seen = open_level > 0.0 ? map.level[spot.cell] / open_level : 0.0;
        place.picture_seen = open[at] > 0.0 ? shadowed[at] / open[at] : 0.0;
        if (!spot.mixed)
            place.verdict = verdict_of(map, spot.cell, shadowed[at], open[at],
                                       spot.reflectance * map.plate_exposure / pi);
        if (place.verdict == FaceVerdict::only_map_lit)
            place.blocker = blocker_of(studio, spot.place_m, emitter);
        found.places.push_back(std::move(place));
    }
    return found;
}

} // namespace

std::size_t FaceAgreement::count(FaceVerdict verdict) const {
    return static_cast<std::size_t>(
        std::count_if(places.begin(), places.end(),
                      [verdict](const FacePlace& place) { return place.verdict == verdict; }));
}

std::size_t FaceAgreement::agreed() const {
    return count(FaceVerdict::both_lit) + count(FaceVerdict::both_dark);
}

std::size_t FaceAgreement::compared() const {
    return places.size() - count(FaceVerdict::penumbra) - count(FaceVerdict::mixed);
}

double FaceAgreement::share() const {
    const std::size_t all = compared();
    return all > 0 ? static_cast<double>(agreed()) / static_cast<double>(all) : 1.0;
}

std::optional<FaceComparison> compare_face(const std::shared_ptr<const Studio>& studio,
                                           const FaceChart& chart,
                                           const FaceComparisonOptions& options) {
    if (!studio->subject) return {};
    FaceComparison made;
    std::vector<Spot> spots = spots_in_sight(*studio, chart, studio->set.camera.position_m);
    for (const std::uint8_t covered : chart.fine.covered) made.covered += covered;
    made.seen = spots.size();
    if (spots.empty()) return {};
    frame_spots(*studio, spots, options.pixel_mm, made);
    find_pixels(*studio, made, options.pixel_mm, spots);
    const auto shadowed =
        pictures_by_light(studio_for_pictures(*studio, true), made, options.samples);
    const auto open = pictures_by_light(studio_for_pictures(*studio, false), made, options.samples);
    for (std::size_t light = 0; light < studio->emitters.size(); ++light) {
        if (shadowed[light].empty()) continue;
        const Emitter& emitter = studio->emitters[light];
        const FaceRoom room{studio->rays.get(), studio->subject->head_axes,
                            studio->subject->head_origin_m};
        const auto read = read_light_in_room(
            chart, emitter, room,
            read_light_on_face(chart, emitter, room.head_axes, room.head_origin_m));
        FaceLight map = traced_light(*read);
        map.plate_exposure *= emitter.exitance * emitter.power;
        if (map.plate_exposure <= 0.0) continue;
        made.lights.push_back(
            compare_light(*studio, emitter, map, spots, made, shadowed[light], open[light]));
    }
    return made;
}

RgbaImage face_map(const FaceComparison& comparison, const FaceAgreement& light) {
    constexpr std::array<std::array<std::uint8_t, 3>, 6> colours{
        {{225, 225, 220}, {70, 70, 70}, {245, 205, 30}, {215, 40, 30}, {95, 130, 175}, {0, 0, 0}}};
    RgbaImage map{comparison.width_px, comparison.height_px, {}};
    for (int i = 0; i < map.width * map.height; ++i)
        map.pixels.insert(map.pixels.end(), {30, 34, 30, 255});
    for (const FacePlace& place : light.places)
        for (int dy = -1; dy <= 1; ++dy)
            for (int dx = -1; dx <= 1; ++dx) {
                const int x = std::clamp(place.x_px + dx, 0, map.width - 1);
                const int y = std::clamp(place.y_px + dy, 0, map.height - 1);
                const auto at = 4 * static_cast<std::size_t>(y * map.width + x);
                const auto& colour = colours[static_cast<std::size_t>(place.verdict)];
                std::copy(colour.begin(), colour.end(),
                          map.pixels.begin() + static_cast<std::ptrdiff_t>(at));
            }
    return map;
}

} // namespace keystead
