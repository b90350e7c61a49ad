#include "sim/light/exposure.h"

#include "sim/base/vec.h"

#include <algorithm>
#include <cmath>

namespace keystead {

double metered_luminance(double f_number, double time_s, double iso, double k) {
    return k * f_number * f_number / (time_s * iso);
}

double metered_illuminance(double f_number, double time_s, double iso, double c_lx_s) {
    return c_lx_s * f_number * f_number / (time_s * iso);
}

double f_number_of_luminance(double luminance_cd_m2, double time_s, double iso, double k) {
    return std::sqrt(luminance_cd_m2 * time_s * iso / k);
}

double f_number_of_illuminance(double illuminance_lx, double time_s, double iso, double c_lx_s) {
    return f_number_of_exposure(illuminance_lx * time_s, iso, c_lx_s);
}

double exposure_of_f_number(double f_number, double iso, double c_lx_s) {
    return c_lx_s * f_number * f_number / iso;
}

double f_number_of_exposure(double exposure_lx_s, double iso, double c_lx_s) {
    return std::sqrt(exposure_lx_s * iso / c_lx_s);
}

double exposure_value(double f_number, double time_s) {
    return std::log2(f_number * f_number / time_s);
}

double exposure_value_100(double f_number, double time_s, double iso) {
    return exposure_value(f_number, time_s) - std::log2(iso / 100.0);
}

double calibration_reflectance(double k, double c_lx_s) {
    return pi * k / c_lx_s;
}

double f_number_of_sum(std::span<const double> f_numbers) {
    double sum = 0.0;
    for (const double f_number : f_numbers) sum += f_number * f_number;
    return std::sqrt(sum);
}

double f_number_of_pops(double f_number, int pops) {
    return f_number * std::sqrt(double(pops));
}

LightingRatio lighting_ratio(double key_f_number, double fill_f_number) {
    LightingRatio ratio;
    ratio.key_to_fill = key_f_number * key_f_number / (fill_f_number * fill_f_number);
    ratio.lit_to_shadow = ratio.key_to_fill + 1.0;
    ratio.stops_key_over_fill = std::log2(ratio.key_to_fill);
    ratio.stops_lit_to_shadow = std::log2(ratio.lit_to_shadow);
    return ratio;
}

double stops_key_over_fill(double lit_to_shadow_ratio) {
    return std::log2(lit_to_shadow_ratio - 1.0);
}

KeyAndFill solve_key_and_fill(double total_f_number, double lit_to_shadow_ratio) {
    const double fill_share = 1.0 / lit_to_shadow_ratio;
    return {total_f_number * std::sqrt(1.0 - fill_share), total_f_number * std::sqrt(fill_share)};
}

double power_change_stops(double present_f_number, double wanted_f_number) {
    return 2.0 * std::log2(wanted_f_number / present_f_number);
}

AmbientShare ambient_share(double illuminance_lx, double f_number, double shutter_s, double iso,
                           double c_lx_s) {
    const double share = illuminance_lx * shutter_s / exposure_of_f_number(f_number, iso, c_lx_s);
    return {std::log2(share), std::log2(1.0 + share)};
}

double sync_dark_fraction(double shutter_s, double curtain_travel_s, double delay_s) {
    // The second curtain starts one shutter time after the first; the flash comes when the first
    // has arrived, so the second has run for travel + delay - shutter.
    return std::clamp((curtain_travel_s + delay_s - shutter_s) / curtain_travel_s, 0.0, 1.0);
}

} // namespace keystead
