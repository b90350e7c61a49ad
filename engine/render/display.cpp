#include "engine/render/display.h"
#include "engine/render/display_text.h"
#include "engine/render/stops_map_text.h"
#include "sim/light/colour.h"
#include "sim/light/exposure.h"
#include "sim/light/sensor.h"
#include "sim/light/stops.h"

#include <cmath>
#include <cstdio>

namespace keystead {

double display_exposure(const Camera& camera, const MeterSettings& meter) {
    // The card's radiance under metered light H is 0.18 H / pi.
    return pi /
           exposure_of_f_number(exact_f_number(camera.f_number), camera.iso, meter.flat_c_lx_s);
}

Display camera_display(const Camera& camera, const MeterSettings& meter) {
    Display display;
    display.exposure = display_exposure(camera, meter);
    display.soft_shoulder = camera.soft_shoulder;
    display.balance = glm::mat3(balance_matrix(camera.white_balance_k));
    display.full_tone = saturating_reflectance(meter.flat_c_lx_s);
    return display;
}

double tone_of_face(double reflectance, double stops_off) {
    return reflectance * std::exp2(stops_off);
}

glm::u8vec3 band_colour(int band) {
    const glm::vec3 linear = stops_map::stop_band_colour(static_cast<float>(band));
    return {glm::round(255.0F * display_curve::srgb_encoded3(linear))};
}

std::string band_words(int band) {
    if (band == 0) return "face";
    std::string words = (band > 0 ? "+" : "-") + std::to_string(std::abs(band));
    if (band == lowest_band) words += " and less";
    if (band == highest_band) words += " and more";
    return words;
}

std::string anchor_words(const Display& display) {
    char words[160];
    const double over = std::log2(display.full_tone / 0.18);
    std::snprintf(
        words, sizeof words,
        "18 %% grey in metered light is code 118; the sensor is full %.1f stops above it; "
        "%s",
        over,
        display.soft_shoulder ? "highlights roll off to white"
                              : "highlights clip at 2.5 stops above it");
    return words;
}

} // namespace keystead
