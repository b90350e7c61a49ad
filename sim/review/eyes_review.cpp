// Eyes: light seen by each pupil, and what the cornea mirrors to the camera.
#include "sim/portrait/catchlight.h"
#include "sim/review/eye_view.h"
#include "sim/review/mirrored.h"
#include "sim/review/passes.h"
#include "sim/review/tone.h"
#include "sim/shape/content_key.h"
#include "sim/subject/lens.h"

#include <algorithm>
#include <cmath>

namespace keystead {

namespace {

/// Refractive index of the cornea with its film of tears (anatomy: 1.376 and 1.336).
constexpr double cornea_index = 1.376;
/// Fainter than this over a pupil nobody sees it.
constexpr double least_tone = 0.01;

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
        const double tone = mirror_tone(bench, thing, mirror_reflectance(bench, eye, thing));
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
