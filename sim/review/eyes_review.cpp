// Eyes: light seen by each pupil, and what the cornea mirrors to the camera.
#include "sim/light/sensor.h"
#include "sim/meter/meter_point.h"
#include "sim/portrait/catchlight.h"
#include "sim/review/eye_view.h"
#include "sim/review/passes.h"
#include "sim/review/tone.h"
#include "sim/shape/content_key.h"
#include "sim/subject/lens.h"
#include "sim/support/panel_pose.h"

#include <algorithm>
#include <cmath>

namespace keystead {

namespace {

/// Refractive index of the cornea with its film of tears (anatomy: 1.376 and 1.336).
constexpr double cornea_index = 1.376;
/// Fainter than this over a pupil nobody sees it.
constexpr double least_tone = 0.01;

/// Mean luminance times time that a light's face shows a place, cd·s/m², at its present power.
double mean_luminance(const Bench& bench, const Emitter& emitter, const Vec3& to_m) {
    double sum = 0.0;
    const std::vector<EmitterPoint> points = emitter_points(emitter, 55);
    for (const EmitterPoint& point : points)
        sum += radiance(emitter, point, glm::normalize(to_m - point.position_m));
    return sum / static_cast<double>(points.size()) * emitter.power *
           counted_time_s(emitter, bench.studio.set.camera);
}

/// A leaf of a panel as the face of a light, from the side that the eye sees.
Emitter leaf_as_emitter(const PanelLeaf& leaf, const std::string& id, double thickness_m,
                        const Vec3& eye_m) {
    Emitter face;
    face.light = id;
    face.shape = ModifierShape::rectangle;
    const bool front = glm::dot(eye_m - leaf.centre_m, leaf.axes[2]) > 0.0;
    face.axes = front ? leaf.axes : Mat3(-leaf.axes[0], leaf.axes[1], -leaf.axes[2]);
    face.centre_m = leaf.centre_m + (0.5 * thickness_m + 3e-3) * face.axes[2];
    face.width_m = leaf.width_m;
    face.height_m = leaf.height_m;
    face.area_m2 = leaf.width_m * leaf.height_m;
    face.exitance = 1.0;
    return face;
}

/// Illuminance of a plate that faces the middle, from a face of luminance 1: what a reading is
/// divided by to find a mean luminance.
double lit_by_unit_luminance(const Emitter& leaf, const Vec3& at_m, const Vec3& facing) {
    double sum = 0.0;
    for (const EmitterPoint& point : emitter_points(leaf, 34)) {
        const Vec3 way = point.position_m - at_m;
        const double square = glm::dot(way, way);
        const Vec3 direction = way / std::sqrt(square);
        sum += std::max(0.0, -glm::dot(direction, point.normal)) *
               std::max(0.0, glm::dot(direction, facing)) * point.area_m2 / square;
    }
    return sum;
}

/// Something that may be mirrored: where it is, and how bright.
struct Mirrored {
    Emitter face;
    bool panel = false;
    double luminance = 0.0; ///< cd·s/m²
    std::uint64_t key = 0;  ///< of its geometry
};

void add_panel(const Bench& bench, const Panel& panel, double exposure_lx_s,
               std::vector<Mirrored>& list) {
    const PanelPose pose = pose_panel(panel);
    Vec3 middle(0.0);
    for (const PanelLeaf& leaf : pose.leaves)
        middle += leaf.centre_m / static_cast<double>(pose.leaves.size());
    const Vec3 facing = glm::normalize(middle - bench.marks.face);
    std::vector<Emitter> faces;
    double unit = 0.0;
    for (const PanelLeaf& leaf : pose.leaves) {
        faces.push_back(
            leaf_as_emitter(leaf, panel.id, surface_of(panel).thickness_m, bench.marks.face));
        unit += lit_by_unit_luminance(faces.back(), bench.marks.face, facing);
    }
    if (unit <= 0.0) return;
    for (Emitter& face : faces) {
        const std::uint64_t key = ContentKey()
                                      .add(panel.id)
                                      .add(face.centre_m)
                                      .add(face.axes)
                                      .add(face.width_m)
                                      .add(face.height_m)
                                      .value();
        list.push_back({std::move(face), true, exposure_lx_s / unit, key});
    }
}

std::vector<Mirrored> mirrored_things(const Bench& bench, const std::vector<PanelReview>& panels) {
    std::vector<Mirrored> list;
    const Studio& studio = bench.studio;
    for (std::size_t i = 0; i < studio.emitters.size(); ++i)
        list.push_back({studio.emitters[i], false,
                        mean_luminance(bench, studio.emitters[i], bench.marks.face),
                        bench.aids.memory->keys().lights[i]});
    for (std::size_t p = 0; p < panels.size(); ++p)
        add_panel(bench, studio.set.panels[p], panels[p].exposure_lx_s, list);
    return list;
}

/// Clock, place, size and share of a catchlight; empty where the camera sees none.
const std::vector<double>& placed(const Bench& bench, const PosedEye& eye, const Mirrored& thing) {
    const Studio& studio = bench.studio;
    const CameraFrame& frame = bench.sight.frame;
    ProbeMemory& memory = *bench.aids.memory;
    const Shades& shades = memory.keys().shades;
    const Extent at_eye{eye.pupil_m, Vec3(0.006)};
    ContentKey key;
    key.add("catchlight").add(thing.key).add(eye.pupil_m).add(eye.eyeball_m);
    key.add(frame.eye_m).add(frame.axes).add(shades.between(extent_of(thing.face), at_eye));
    key.add(shades.between({frame.eye_m, Vec3(0.0)}, at_eye));
    return memory.values(key.value(), [&]() -> std::vector<double> {
        Emitter lit = thing.face;
        lit.power = 1.0;
        const auto found = find_catchlights(eye.pupil_m, eye.eyeball_m, frame.eye_m, frame.axes[0],
                                            frame.axes[1], {&lit, 1}, *studio.rays);
        if (found.empty()) return {};
        const Catchlight& c = found.front();
        return {c.clock,     c.from_pupil_mm.x, c.from_pupil_mm.y,
                c.size_mm.x, c.size_mm.y,       c.seen_share};
    });
}

/// Reflectance of the cornea for a light there, as the camera sees it.
double mirror_reflectance(const Bench& bench, const PosedEye& eye, const Mirrored& thing) {
    const Vec3 to_light = glm::normalize(thing.face.centre_m - eye.pupil_m);
    const Vec3 to_camera = glm::normalize(bench.sight.frame.eye_m - eye.pupil_m);
    const double half_cosine = std::sqrt(std::max(0.0, 0.5 + 0.5 * glm::dot(to_light, to_camera)));
    return surface_reflectance(half_cosine, cornea_index);
}

std::vector<CatchlightReview> catchlights_in(const Bench& bench, const PosedEye& eye,
                                             const std::vector<Mirrored>& things) {
    std::vector<CatchlightReview> found;
    std::vector<double> tones;
    for (const Mirrored& thing : things) {
        const double tone = mirror_reflectance(bench, eye, thing) * thing.luminance * pi /
                            bench.camera_exposure_lx_s;
        // Looked for first: a change of power alone casts no ray.
        const std::vector<double>& v = placed(bench, eye, thing);
        if (v.empty() || tone < least_tone) continue;
        found.push_back({thing.face.light,
                         thing.panel,
                         v[0],
                         {v[1], v[2]},
                         {v[3], v[4]},
                         100.0 * v[5],
                         shape_word(thing.face),
                         code_8bit(tone),
                         std::log2(tone)});
        tones.push_back(tone);
    }
    if (found.empty()) return found;
    const double brightest = std::log2(*std::max_element(tones.begin(), tones.end()));
    for (CatchlightReview& c : found) c.stops_from_brightest -= brightest;
    std::stable_sort(found.begin(), found.end(),
                     [](const CatchlightReview& a, const CatchlightReview& b) {
                         return a.size_mm.x * a.size_mm.y > b.size_mm.x * b.size_mm.y;
                     });
    return found;
}

} // namespace

std::vector<EyeReview> review_eyes(const Bench& bench, const std::vector<PanelReview>& panels) {
    if (bench.key < 0) return {};
    const Studio& studio = bench.studio;
    const std::vector<Mirrored> things = mirrored_things(bench, panels);
    std::vector<EyeReview> eyes;
    for (const PosedEye& eye : eyes_of(bench.marks)) {
        EyeReview review;
        review.eye = eye.name;
        constexpr double off_cornea_m = 1e-3;
        review.in_view = glm::dot(bench.sight.frame.eye_m - eye.pupil_m, eye.gaze) > 0.0 &&
                         !hidden(bench, eye.pupil_m + off_cornea_m * eye.gaze);
        for (std::size_t i = 0; i < studio.emitters.size(); ++i) {
            auto light = eye_light(studio, eye, i, *bench.aids.memory);
            if (!light || studio.emitters[i].power <= 0.0) continue;
            if (static_cast<int>(i) == bench.key)
                review.light_visible_percent = light->seen_percent;
            // Behind the eye altogether: nothing to say.
            if (light->seen_percent > 0.0 || !light->hiders.empty())
                review.lights.push_back(std::move(*light));
        }
        review.catchlights = catchlights_in(bench, eye, things);
        eyes.push_back(std::move(review));
    }
    return eyes;
}

} // namespace keystead
