#include "sim/review/passes.h"

#include "sim/light/exposure.h"
#include "sim/light/meter.h"
#include "sim/light/stops.h"
#include "sim/review/luminance.h"

#include <cmath>

namespace keystead {

namespace {

/// A dome held just in front of the nose, toward the camera, as a hand meter is; the head behind it
/// hides what comes from behind.
double dome_exposure_lx_s(const Studio& studio) {
    const PosedSubject& subject = *studio.subject;
    const Vec3 before_nose = subject.landmarks.pronasale + 0.03 * subject.head_axes[2];
    const Probe probe{before_nose, glm::normalize(studio.set.camera.position_m - before_nose),
                      Receptor::dome, ray_mask::casters};
    double total = 0.0;
    for (const Emitter& emitter : studio.emitters)
        if (emitter.power > 0.0)
            total +=
                frame_exposure_lx_s(emitter, exposure_at(emitter, probe, studio.rays.get(), 128),
                                    studio.set.camera.shutter_s);
    return total;
}

/// A flat receptor lying on a cheek, shaded by the subject too. `side` +1: the subject's left.
double cheek_exposure_lx_s(const Studio& studio, int side) {
    const PosedSubject& subject = *studio.subject;
    const Vec3 outward = subject.head_axes * glm::normalize(Vec3(0.6 * side, 0.0, 0.8));
    const Vec3 cheek = side > 0 ? subject.landmarks.cheek_left : subject.landmarks.cheek_right;
    return total_exposure_lx_s(studio, cheek + 0.003 * outward, outward, ray_mask::casters, 128);
}

double square_of_reading(const LightReview& light) {
    return light.f_number ? *light.f_number * *light.f_number : 0.0;
}

/// Fill is what lights the face from in front besides the key.
double fill_strength(const std::vector<LightReview>& lights, int key) {
    double strength = 0.0;
    for (std::size_t i = 0; i < lights.size(); ++i)
        if (static_cast<int>(i) != key && direction_from(lights[i].face_angles).z > 0.2)
            strength += square_of_reading(lights[i]);
    return strength;
}

} // namespace

ExposureReview review_exposure(const Studio& studio, const std::vector<LightReview>& lights,
                               int key) {
    ExposureReview review;
    const Camera& camera = studio.set.camera;
    review.camera_f_number = exact_f_number(camera.f_number);
    const double dome = dome_exposure_lx_s(studio);
    if (dome > 0.0) {
        review.face_f_number = f_number_of_exposure(dome, camera.iso, studio.set.meter.dome_c_lx_s);
        review.stops_off = 2.0 * std::log2(*review.face_f_number / review.camera_f_number);
    }
    if (key < 0) return review;
    const LightReview& main = lights[static_cast<std::size_t>(key)];
    const double fill = fill_strength(lights, key);
    if (fill > 0.0) review.ratio_key_to_fill = square_of_reading(main) / fill;

    const int lit_side_sign = main.face_angles.azimuth_deg >= 0.0 ? 1 : -1;
    const double lit = cheek_exposure_lx_s(studio, lit_side_sign);
    const double shadow = cheek_exposure_lx_s(studio, -lit_side_sign);
    if (lit > 0.0 && shadow > 1e-4 * lit) {
        review.ratio_lit_to_shadow = lit / shadow;
        review.stops_lit_to_shadow = std::log2(lit / shadow);
    }
    return review;
}

} // namespace keystead
