#include "sim/light/sensor.h"

#include "sim/base/vec.h"

#include <algorithm>
#include <cmath>

namespace keystead {

double lens_factor(double transmittance, double vignetting, double off_axis_deg) {
    return pi / 4.0 * transmittance * vignetting * std::pow(std::cos(radians(off_axis_deg)), 4);
}

double sensor_exposure_lx_s(double luminance_cd_m2, double time_s, double f_number,
                            double lens_factor) {
    return lens_factor * luminance_cd_m2 * time_s / (f_number * f_number);
}

double saturation_exposure_lx_s(double iso) {
    return 78.0 / iso;
}

double standard_output_exposure_lx_s(double iso) {
    return 10.0 / iso;
}

double fraction_of_saturation(double reflectance) {
    return reflectance / std::sqrt(2.0);
}

double saturating_luminance_cd_m2(double ev100, double lens_factor) {
    return saturation_exposure_lx_s(100.0) / lens_factor * std::exp2(ev100);
}

double metered_card_exposure_lx_s(double reflectance, double iso, double c_lx_s,
                                  double lens_factor) {
    // L t / N² of a Lambertian card is rho E t / (pi N²), and metering makes E t / N² = C / S.
    return lens_factor * reflectance * c_lx_s / (pi * iso);
}

double saturating_reflectance(double c_lx_s, double lens_factor) {
    return saturation_exposure_lx_s(100.0) /
           metered_card_exposure_lx_s(1.0, 100.0, c_lx_s, lens_factor);
}

double srgb_encode(double linear) {
    const double x = std::clamp(linear, 0.0, 1.0);
    return x <= 0.0031308 ? 12.92 * x : 1.055 * std::pow(x, 1.0 / 2.4) - 0.055;
}

double srgb_decode(double encoded) {
    const double x = std::clamp(encoded, 0.0, 1.0);
    return x <= 0.04045 ? x / 12.92 : std::pow((x + 0.055) / 1.055, 2.4);
}

double srgb_code(double linear) {
    return 255.0 * srgb_encode(linear);
}

double cie_lightness(double luminance_factor) {
    constexpr double knee = 216.0 / 24389.0, slope = 24389.0 / 27.0;
    return luminance_factor > knee ? 116.0 * std::cbrt(luminance_factor) - 16.0
                                   : slope * luminance_factor;
}

double reflectance_of_density(double density) {
    return std::pow(10.0, -density);
}

double fresnel_normal(double refractive_index) {
    const double root = (refractive_index - 1.0) / (refractive_index + 1.0);
    return root * root;
}

} // namespace keystead
