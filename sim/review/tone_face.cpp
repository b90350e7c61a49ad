#include "sim/review/tone_face.h"

#include "sim/light/reflection_text.h"
#include "sim/meter/meter_point.h"
#include "sim/portrait/read.h"
#include "sim/review/gloss.h"
#include "sim/shape/content_key.h"
#include "sim/support/panel_pose.h"

#include <algorithm>
#include <cmath>
#include <tbb/parallel_for.h>

namespace keystead {

namespace {

/// A place of the face that the camera sees.
struct Spot {
    std::size_t cell = 0;
    Vec3 position_m{0.0}, normal{0.0};
    double weight = 0.0, reflectance = 0.0, roughness = 0.0;
};
constexpr std::size_t numbers_a_spot = 10;

bool is_skin(Region region) {
    return region != Region::hair && region != Region::eye && region != Region::hat &&
           region != Region::glasses;
}

/// Place, normal, weight, reflectance and roughness of each spot, one after the other.
std::vector<double> look_at_face(const Bench& bench, const FaceChart& chart) {
    const Studio& studio = bench.studio;
    const PosedSubject& posed = *studio.subject;
    const Vec3& eye = bench.sight.frame.eye_m;
    const ChartGrid& grid = chart.fine;
    std::vector<std::size_t> cells;
    std::vector<Vec3> places;
    std::vector<RayQuery> rays;
    for (int row = 1; row < grid.rows; row += 3)
        for (int column = 1; column < grid.columns; column += 3) {
            const std::size_t cell = grid.cell_at(column, row);
            if (grid.covered[cell] == 0 || !is_skin(grid.region[cell])) continue;
            const Vec3 place =
                posed.head_origin_m + posed.head_axes * chart.metres(grid.place_mm[cell]);
            const Vec3 way = place - eye;
            if (glm::dot(posed.head_axes * grid.normal[cell], way) >= 0.0) continue;
            cells.push_back(cell);
            places.push_back(place);
            rays.push_back({eye, glm::normalize(way), sight_start_m, 1e3});
        }
    std::vector<RayHit> hits(rays.size());
    studio.rays->first_hits(rays, ray_mask::all, hits);
    std::vector<double> numbers;
    for (std::size_t i = 0; i < cells.size(); ++i) {
        constexpr double near_m = 4e-3; // the neck bends with the head: the chart does not
        if (hits[i].mesh == ray_miss ||
            std::abs(hits[i].distance_m - glm::length(places[i] - eye)) > near_m)
            continue;
        const ScenePart& part = studio.scene.parts[hits[i].mesh];
        if (part.owner != "subject" || part.part != "skin") continue;
        const SurfacePoint point = surface_at(studio, hits[i], eye, rays[i].direction);
        const double facing = std::max(0.0, -glm::dot(point.normal, rays[i].direction));
        for (const double number :
             {static_cast<double>(cells[i]), point.position_m.x, point.position_m.y,
              point.position_m.z, point.normal.x, point.normal.y, point.normal.z,
              facing * grid.area_mm2[cells[i]], point.reflectance, roughness_at(part, hits[i])})
            numbers.push_back(number);
    }
    return numbers;
}

Spot spot_of(const std::vector<double>& numbers, std::size_t i) {
    const double* n = &numbers[numbers_a_spot * i];
    return {
        static_cast<std::size_t>(n[0]), {n[1], n[2], n[3]}, {n[4], n[5], n[6]}, n[7], n[8], n[9]};
}

/// Radiance toward the camera by mirror-like reflection for an exitance of 1, times pi, of each
/// spot, before what the face itself hides.
std::vector<double> glosses(const Bench& bench, const std::vector<double>& numbers, Emitter emitter,
                            double f0) {
    emitter.power = emitter.exitance = 1.0;
    const std::size_t count = numbers.size() / numbers_a_spot;
    const std::vector<EmitterPoint> points = emitter_points(emitter, 8);
    std::vector<double> result(count, 0.0);
    if (f0 <= 0.0) return result; // a card without a surface of its own
    tbb::parallel_for(std::size_t{0}, count, [&](std::size_t i) {
        const Spot spot = spot_of(numbers, i);
        const Vec3 view = glm::normalize(bench.sight.frame.eye_m - spot.position_m);
        reflection::Surface surface{};
        surface.normal = surface.geometric = spot.normal;
        surface.albedo = Vec3(spot.reflectance);
        surface.roughness = spot.roughness;
        surface.f0 = f0;
        surface.metal = false;
        surface.finish = reflection::finish_skin;
        for (const EmitterPoint& point : points) {
            const Vec3 way = point.position_m - spot.position_m;
            const double square = glm::dot(way, way);
            const Vec3 direction = way / std::sqrt(square);
            const double arrives = glm::dot(direction, spot.normal);
            const double leaves = emitter.shape == ModifierShape::bare
                                      ? std::abs(glm::dot(direction, point.normal))
                                      : -glm::dot(direction, point.normal);
            if (arrives <= 0.0 || leaves <= 0.0) continue;
            result[i] += pi * radiance(emitter, point, -direction) * leaves * point.area_m2 /
                         square *
                         reflection::specular_reflection(surface, view, direction, arrives).x;
        }
    });
    return result;
}

/// Exposure that every place of the face gets alike: room light, and bounce as the dome reads it.
double even_lx_s(const Bench& bench) {
    double sum = room_light_lx_s(bench.studio.set);
    for (const double light : bounces_lx_s(bench.studio, bench.aids, dome_at_face(bench.studio)))
        sum += light;
    return sum;
}

struct FromPanel {
    Vec3 toward{0.0};
    double exposure_lx_s = 0.0;
};

std::vector<FromPanel> from_panels(const Bench& bench, const std::vector<PanelReview>& panels) {
    std::vector<FromPanel> list;
    for (std::size_t p = 0; p < panels.size(); ++p) {
        const PanelPose pose = pose_panel(bench.studio.set.panels[p]);
        Vec3 middle(0.0);
        for (const PanelLeaf& leaf : pose.leaves)
            middle += leaf.centre_m / static_cast<double>(pose.leaves.size());
        list.push_back({glm::normalize(middle - bench.marks.face), panels[p].exposure_lx_s});
    }
    return list;
}

/// Adds one light, as the face itself shades it, to the picture.
void add_light(const Bench& bench, std::size_t light, const FaceLight& traced,
               const std::vector<double>& numbers, const std::vector<double>& gloss,
               FacePicture& picture) {
    const Emitter& emitter = bench.studio.emitters[light];
    const double factor = emitter.exitance * emitter.power *
                          counted_time_s(emitter, bench.studio.set.camera) /
                          bench.camera_exposure_lx_s;
    std::vector<double>& own = picture.by_light[light];
    for (std::size_t i = 0; i < picture.cells.size(); ++i) {
        const std::size_t cell = picture.cells[i];
        const double matt =
            numbers[numbers_a_spot * i + 8] * traced.level[cell] * traced.plate_exposure * factor;
        const double mirrored = gloss[i] * traced.seen[cell] * factor;
        picture.matt[i] += matt;
        picture.gloss[i] += mirrored;
        own[i] = matt + mirrored;
    }
}

} // namespace

FacePicture picture_face(const Bench& bench, const std::vector<PanelReview>& panels,
                         ReviewMemory& memory) {
    FacePicture picture;
    const Studio& studio = bench.studio;
    const FaceChart& chart = face_chart_of(studio, memory);
    const Vec3& eye = bench.sight.frame.eye_m;
    ProbeMemory& probes = *bench.aids.memory;
    const Extent head{bench.marks.face, Vec3(0.15)};
    const std::uint64_t view = ContentKey()
                                   .add("face in view")
                                   .add(studio.subject_key)
                                   .add(eye)
                                   .add(probes.keys().shades.between({eye, Vec3(0.0)}, head))
                                   .value();
    const std::vector<double>& numbers =
        probes.values(view, [&] { return look_at_face(bench, chart); });
    const std::size_t count = numbers.size() / numbers_a_spot;
    const std::vector<FromPanel> off_panels = from_panels(bench, panels);
    const double even = even_lx_s(bench);
    for (std::size_t i = 0; i < count; ++i) {
        const Spot spot = spot_of(numbers, i);
        double exposure = even;
        for (const FromPanel& panel : off_panels)
            exposure += panel.exposure_lx_s * std::max(0.0, glm::dot(panel.toward, spot.normal));
        picture.cells.push_back(spot.cell);
        picture.weight.push_back(spot.weight);
        picture.matt.push_back(spot.reflectance * exposure / bench.camera_exposure_lx_s);
    }
    picture.gloss.assign(count, 0.0);
    picture.by_light.assign(studio.emitters.size(), std::vector<double>(count, 0.0));
    double f0 = 0.028;
    for (const ScenePart& part : studio.scene.parts)
        if (part.owner == "subject" && part.part == "skin") f0 = part.material.f0;
    for (std::size_t i = 0; i < studio.emitters.size(); ++i) {
        const ReviewMemory::Face& face = memory.faces[studio.emitters[i].light];
        if (!face.light) continue;
        const std::uint64_t key =
            ContentKey().add("gloss").add(view).add(f0).add(probes.keys().lights[i]).value();
        const std::vector<double>& gloss =
            probes.values(key, [&] { return glosses(bench, numbers, studio.emitters[i], f0); });
        add_light(bench, i, traced_light(*face.light), numbers, gloss, picture);
    }
    return picture;
}

double clipped_percent(const FacePicture& picture, std::size_t light, double stops_less) {
    const double off = 1.0 - std::exp2(-stops_less);
    double all = 0.0, over = 0.0;
    for (std::size_t i = 0; i < picture.cells.size(); ++i) {
        const double less = off > 0.0 ? off * picture.by_light[light][i] : 0.0;
        all += picture.weight[i];
        if (picture.matt[i] + picture.gloss[i] - less > 1.0) over += picture.weight[i];
    }
    return all > 0.0 ? 100.0 * over / all : 0.0;
}

} // namespace keystead
