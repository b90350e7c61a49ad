#include "sim/review/mirrored.h"

#include "sim/meter/meter_point.h"
#include "sim/shape/content_key.h"
#include "sim/support/panel_pose.h"

#include <cmath>

namespace keystead {

namespace {

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

} // namespace

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

double mirror_tone(const Bench& bench, const Mirrored& thing, double reflectance) {
    return reflectance * thing.luminance * pi / bench.camera_exposure_lx_s;
}

} // namespace keystead
