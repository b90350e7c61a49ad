#include "sim/review/passes.h"

#include "sim/light/exposure.h"
#include "sim/light/meter.h"
#include "sim/light/stops.h"
#include "sim/review/keys.h"
#include "sim/review/luminance.h"

#include <algorithm>
#include <cmath>

namespace keystead {

namespace {

Angles angles_in_head(const PosedSubject& subject, const Vec3& point_m) {
    return angles_of(glm::transpose(subject.head_axes) *
                     glm::normalize(point_m - subject.landmarks.face));
}

ReviewMemory::Alone measure_alone(const Studio& studio, std::size_t index,
                                  const ReviewMemory& memory, std::uint64_t key) {
    Emitter emitter = studio.emitters[index];
    emitter.power = 1.0;
    const Vec3 face = studio.subject->landmarks.face;
    // A hand meter is held where the light reaches it: the head itself does not shade it.
    const Probe probe{face, glm::normalize(emitter.centre_m - face), Receptor::flat,
                      ray_mask::gear | ray_mask::panel};
    ReviewMemory::Alone alone;
    alone.key = key;
    alone.exposure_full_power = exposure_at(emitter, probe, studio.rays.get());
    if (memory.chart)
        alone.pattern = read_pattern(*memory.chart, emitter, studio.subject->head_axes,
                                     studio.subject->head_origin_m);
    return alone;
}

/// Nose protrusion: what throws the shadow whose edge the penumbra figure describes.
double nose_protrusion_m(const Landmarks& landmarks) {
    return glm::length(landmarks.pronasale - landmarks.subnasale);
}

LightReview describe(const Studio& studio, std::size_t index, const ReviewMemory::Alone& alone) {
    const Light& light = studio.set.lights[index];
    const Emitter& emitter = studio.emitters[index];
    LightReview review;
    review.id = light.id;
    review.position_m = emitter.centre_m;
    review.distance_to_face_m = glm::length(emitter.centre_m - studio.subject->landmarks.face);
    review.face_angles = angles_in_head(*studio.subject, emitter.centre_m);
    const double size_m = std::max(emitter.width_m, emitter.height_m);
    review.apparent_size_deg =
        2.0 * degrees(std::atan(0.5 * size_m / std::max(0.01, review.distance_to_face_m)));
    review.penumbra_mm = 1000.0 * size_m * nose_protrusion_m(studio.subject->landmarks) /
                         std::max(0.01, review.distance_to_face_m);
    if (alone.pattern) review.pattern_if_alone = alone.pattern->pattern;

    const double exposure = alone.exposure_full_power * emitter.power;
    (emitter.flash ? review.exposure_lx_s : review.illuminance_lx) = exposure;
    const double in_frame = frame_exposure_lx_s(emitter, exposure, studio.set.camera.shutter_s);
    if (!light.on) {
        review.reading = "off";
    } else if (in_frame > 0.0) {
        review.f_number =
            f_number_of_exposure(in_frame, studio.set.camera.iso, studio.set.meter.flat_c_lx_s);
        review.reading = meter_notation(*review.f_number);
    } else {
        review.reading = "no light on the face";
    }
    return review;
}

double reading_squared(const LightReview& light) {
    return light.f_number ? *light.f_number * *light.f_number : 0.0;
}

} // namespace

std::vector<LightReview> review_lights(const Studio& studio, ReviewMemory& memory) {
    if (!memory.chart || memory.form_key != studio.form_key) {
        memory.chart = make_face_chart(*studio.form);
        memory.form_key = studio.form_key;
    }
    std::vector<LightReview> reviews;
    for (std::size_t i = 0; i < studio.set.lights.size(); ++i) {
        ReviewMemory::Alone& kept = memory.alone[studio.set.lights[i].id];
        const std::uint64_t key = alone_key(studio, i);
        if (kept.key != key) {
            kept = measure_alone(studio, i, memory, key);
            ++memory.computed;
        }
        reviews.push_back(describe(studio, i, kept));
    }
    const int key = key_light(studio, reviews);
    double sum = 0.0;
    for (const LightReview& light : reviews) sum += reading_squared(light);
    for (LightReview& light : reviews) {
        if (sum > 0.0) light.share = reading_squared(light) / sum;
        if (key >= 0 && light.f_number)
            light.stops_from_key =
                2.0 * std::log2(*light.f_number / *reviews[static_cast<std::size_t>(key)].f_number);
    }
    return reviews;
}

int key_light(const Studio& studio, const std::vector<LightReview>& lights) {
    int front = -1, any = -1;
    const auto stronger = [&](std::size_t i, int than) {
        return than < 0 || *lights[i].f_number > *lights[static_cast<std::size_t>(than)].f_number;
    };
    for (std::size_t i = 0; i < lights.size(); ++i) {
        if (!studio.set.lights[i].on || !lights[i].f_number) continue;
        const bool before_ears = direction_from(lights[i].face_angles).z > -0.1;
        if (stronger(i, any)) any = static_cast<int>(i);
        if (before_ears && stronger(i, front)) front = static_cast<int>(i);
    }
    return front >= 0 ? front : any;
}

} // namespace keystead
