// Supports and lights: statics, and what a hand meter reads of each light at the face.
#include "sim/light/exposure.h"
#include "sim/light/stops.h"
#include "sim/meter/meter_point.h"
#include "sim/review/bag_needed.h"
#include "sim/review/keys.h"
#include "sim/review/passes.h"
#include "sim/support/panel_pose.h"

#include <algorithm>
#include <cmath>

namespace keystead {

namespace {

/// Side of the square that looks as large from the face: width and height foreshortened.
double seen_size_m(const Emitter& emitter, const Vec3& from_m) {
    if (emitter.shape == ModifierShape::bare) return emitter.width_m;
    const Vec3 way = glm::normalize(emitter.centre_m - from_m);
    const auto shortened = [&](const Vec3& axis, double size) {
        const double along = glm::dot(axis, way);
        return size * std::sqrt(std::max(0.0, 1.0 - along * along));
    };
    // Only the product counts: a face seen from its edge has one side gone.
    return std::sqrt(shortened(emitter.axes[0], emitter.width_m) *
                     shortened(emitter.axes[1], emitter.height_m));
}

/// How far the nose tip stands proud of the upper lip, along the nose.
double nose_height_m(const Bench& bench) {
    const Vec3 proud = bench.marks.pronasale - bench.marks.subnasale;
    return std::max(0.005, glm::dot(proud, bench.studio.subject->head_axes[2]));
}

/// Width of the soft edge of the nose tip's shadow on the cheek: D b / a for a source of size D at
/// distance a from the edge and b from edge to cheek (similar triangles).
double nose_penumbra_mm(const Bench& bench, const Emitter& emitter, double size_m) {
    const Vec3 way = emitter.centre_m - bench.marks.pronasale;
    const double distance = glm::length(way);
    const double cosine =
        std::max(0.5, glm::dot(way, bench.studio.subject->head_axes[2]) / distance);
    return 1000.0 * size_m * (nose_height_m(bench) / cosine) / distance;
}

/// Flat, alone, at full power.
double full_power_lx_s(const Bench& bench, std::size_t index, ReviewMemory& memory) {
    const Emitter& emitter = bench.studio.emitters[index];
    ReviewMemory::Alone& alone = memory.alone[emitter.light];
    const std::uint64_t key = alone_key(bench.studio, index);
    if (alone.key != key) {
        Emitter full = emitter;
        full.power = full.exitance = 1.0;
        alone = {key, exposure_at(full, flat_at_face(bench.studio, index), bench.studio.rays.get(),
                                  256)};
        ++memory.computed;
    }
    return alone.exposure * emitter.exitance * counted_time_s(emitter, bench.studio.set.camera);
}

void read_light(LightReview& light, const Bench& bench, std::size_t index, ReviewMemory& memory) {
    const Emitter& emitter = bench.studio.emitters[index];
    const double exposure = emitter.power * full_power_lx_s(bench, index, memory);
    if (exposure <= 0.0) {
        light.reading = emitter.power <= 0.0 ? "off" : "none";
        return;
    }
    if (emitter.flash)
        light.exposure_lx_s = exposure;
    else
        light.illuminance_lx = exposure / bench.studio.set.camera.shutter_s;
    light.f_number = flat_f_number(bench, exposure);
    light.reading = meter_notation(*light.f_number);
}

double lx_s_of(const LightReview& light, const Bench& bench) {
    return light.f_number ? exposure_of_f_number(*light.f_number, bench.iso, bench.flat_c_lx_s)
                          : 0.0;
}

} // namespace

std::vector<SupportReview> review_supports(const Studio& studio, ReviewMemory& memory) {
    std::vector<SupportReview> supports;
    for (std::size_t i = 0; i < studio.set.lights.size(); ++i) {
        const Light& light = studio.set.lights[i];
        ReviewMemory::Statics& kept = memory.statics[light.id];
        const std::uint64_t key = statics_key(studio, i);
        if (kept.key != key) {
            const Stability stability = assess(light, studio.supports[i], studio.set.limits);
            kept = {key, stability,
                    bag_needed(light, resolve_aim(light, studio.subject->landmarks),
                               studio.set.limits, stability)};
            ++memory.computed;
        }
        supports.push_back({light.id, kept.stability, kept.needed});
    }
    for (const Panel& panel : studio.set.panels) {
        if (!panel.support) continue;
        const Light load = as_load(panel);
        const Stability stability = assess(load, *pose_panel(panel).support, studio.set.limits);
        supports.push_back({panel.id, stability,
                            bag_needed(load, panel_aim(panel), studio.set.limits, stability)});
    }
    return supports;
}

std::vector<LightReview> review_lights(const Bench& bench, ReviewMemory& memory) {
    std::vector<LightReview> lights;
    for (std::size_t i = 0; i < bench.studio.emitters.size(); ++i) {
        const Emitter& emitter = bench.studio.emitters[i];
        LightReview light;
        light.id = emitter.light;
        light.position_m = emitter.centre_m;
        const Vec3 way = emitter.centre_m - bench.marks.face;
        light.distance_to_face_m = glm::length(way);
        light.face_angles = face_angles(way, bench.studio.subject->head_axes);
        const double size_m = seen_size_m(emitter, bench.marks.face);
        light.apparent_size_deg = degrees(2.0 * std::atan(0.5 * size_m / light.distance_to_face_m));
        light.penumbra_mm = nose_penumbra_mm(bench, emitter, size_m);
        read_light(light, bench, i, memory);
        lights.push_back(std::move(light));
    }
    return lights;
}

ExposureReview review_exposure(const Bench& bench, std::vector<LightReview>& lights,
                               const std::vector<PanelReview>& panels) {
    ExposureReview exposure;
    exposure.camera_f_number = bench.camera_f_number;
    const Probe dome = dome_at_face(bench.studio);
    const std::vector<double> bounces = bounces_lx_s(bench.studio, bench.aids, dome);
    double total = room_light_lx_s(bench.studio.set), fill = 0.0, bounced = 0.0;
    for (std::size_t i = 0; i < lights.size(); ++i) {
        lights[i].share = exposure_lx_s(bench, i, dome, 256) + bounces[i];
        bounced += bounces[i];
        total += lights[i].share;
        lights[i].stops_from_key = stops_from_key(bench, lx_s_of(lights[i], bench));
        const bool ahead = std::abs(lights[i].face_angles.azimuth_deg) < 90.0;
        if (static_cast<int>(i) != bench.key && ahead) fill += lx_s_of(lights[i], bench);
    }
    for (const PanelReview& panel : panels) fill += panel.exposure_lx_s;
    if (total > 0.0) {
        for (LightReview& light : lights) light.share /= total;
        exposure.bounce_share = bounced / total;
        exposure.face_f_number = f_number_of_exposure(total, bench.iso, bench.dome_c_lx_s);
        exposure.stops_off =
            stops_between_f_numbers(bench.camera_f_number, *exposure.face_f_number);
    }
    if (bench.key < 0 || bench.key_exposure_lx_s <= 0.0) return exposure;
    exposure.key_f_number = flat_f_number(bench, bench.key_exposure_lx_s);
    const Probe shadow = flat_to_shadow(bench.studio, static_cast<std::size_t>(bench.key));
    double bounce_there = 0.0;
    for (const double light : bounces_lx_s(bench.studio, bench.aids, shadow)) bounce_there += light;
    exposure.bounce_stops_from_key = stops_from_key(bench, bounce_there);
    fill += bounce_there;
    if (fill <= 0.0) return exposure;
    exposure.fill_f_number = flat_f_number(bench, fill);
    const LightingRatio ratio = lighting_ratio(*exposure.key_f_number, *exposure.fill_f_number);
    exposure.ratio_key_to_fill = ratio.key_to_fill;
    exposure.stops_key_over_fill = ratio.stops_key_over_fill;
    exposure.ratio_lit_to_shadow = ratio.lit_to_shadow;
    exposure.stops_lit_to_shadow = ratio.stops_lit_to_shadow;
    return exposure;
}

} // namespace keystead
