#include "sim/review/passes.h"

#include "sim/light/exposure.h"
#include "sim/light/sensor.h"
#include "sim/light/stops.h"
#include "sim/review/luminance.h"
#include "sim/review/sight.h"

#include <algorithm>
#include <cmath>

namespace keystead {

namespace {

struct BackgroundSample {
    double exposure_lx_s = 0.0;
    double stops = 0.0; ///< over an 18 % card at the camera's exposure
};

/// Samples of whatever is behind the subject, over the frame.
std::vector<BackgroundSample> sample_background(const Studio& studio, const Sight& sight) {
    constexpr int columns = 12, rows = 9;
    std::vector<BackgroundSample> samples;
    for (int row = 0; row < rows; ++row)
        for (int column = 0; column < columns; ++column) {
            const double x = (column + 0.5) / columns * 2.0 - 1.0;
            const double y = (row + 0.5) / rows * 2.0 - 1.0;
            const auto seen = see(studio, sight, ray_through(sight, x, y));
            if (!seen || (seen->part->owner != "background" && seen->part->owner != "room"))
                continue;
            BackgroundSample sample;
            sample.exposure_lx_s = total_exposure_lx_s(studio, seen->point_m + 0.002 * seen->normal,
                                                       seen->normal, ray_mask::casters, 24);
            sample.stops =
                stops_over_card(luminous_albedo(*seen->part, seen->hit), sample.exposure_lx_s,
                                studio.set.camera, studio.set.meter);
            samples.push_back(sample);
        }
    return samples;
}

} // namespace

BackgroundReview review_background(const Studio& studio, const std::vector<LightReview>& lights,
                                   int key) {
    BackgroundReview review;
    std::vector<BackgroundSample> samples = sample_background(studio, sight_of(studio.set.camera));
    if (samples.size() < 8) return review;
    std::sort(samples.begin(), samples.end(),
              [](const auto& a, const auto& b) { return a.stops < b.stops; });
    const BackgroundSample& median = samples[samples.size() / 2];
    review.value_8bit = srgb_code(std::min(1.0, 0.18 * std::exp2(median.stops)));
    // Darkest and brightest twentieth left out.
    const std::size_t margin = std::max<std::size_t>(1, samples.size() / 20);
    review.evenness_stops = samples[samples.size() - 1 - margin].stops - samples[margin].stops;
    if (key >= 0 && median.exposure_lx_s > 0.0) {
        const double key_reading = *lights[static_cast<std::size_t>(key)].f_number;
        const double background_reading = f_number_of_exposure(
            median.exposure_lx_s, studio.set.camera.iso, studio.set.meter.flat_c_lx_s);
        review.stops_from_key = 2.0 * std::log2(background_reading / key_reading);
    }
    return review;
}

} // namespace keystead
