// Exposure arithmetic: meters, flash, sensor plane, lights added, ratios, ambient and sync.
//
// Meter equations of ISO 2720:1974 (read in secondary sources): reflected N²/t = L S / K, incident
// N²/t = E S / C. Flash puts the luminous exposure H = ∫E dt (lx·s) in place of E t. K and C are
// contested, hence arguments: K 10.6..13.4 in the standard, 12.5 or 14 in use; C 240..400 flat
// (250 in use), 320..540 for domes (320..340 in use).
#pragma once

#include <span>

namespace keystead {

inline constexpr double default_k = 12.5;
inline constexpr double default_flat_c_lx_s = 250.0;
inline constexpr double default_dome_c_lx_s = 330.0;

/// Luminance (cd/m²) that a reflected-light meter answers with these settings; and illuminance (lx)
/// for an incident one.
double metered_luminance(double f_number, double time_s, double iso, double k = default_k);
double metered_illuminance(double f_number, double time_s, double iso,
                           double c_lx_s = default_flat_c_lx_s);
/// f-numbers for a measured luminance or illuminance.
double f_number_of_luminance(double luminance_cd_m2, double time_s, double iso,
                             double k = default_k);
double f_number_of_illuminance(double illuminance_lx, double time_s, double iso,
                               double c_lx_s = default_flat_c_lx_s);

/// Luminous exposure that reads as this f-number, H = C N²/S, and the f-number of an exposure.
double exposure_of_f_number(double f_number, double iso, double c_lx_s = default_flat_c_lx_s);
double f_number_of_exposure(double exposure_lx_s, double iso, double c_lx_s);

/// EV = log2(N²/t), and EV at ISO 100 of the same scene: less log2(S/100).
double exposure_value(double f_number, double time_s);
double exposure_value_100(double f_number, double time_s, double iso);

/// Reflectance at which a reflected and a flat incident reading agree: pi K / C.
double calibration_reflectance(double k, double c_lx_s);

/// Lights add as squares of their f-numbers: N = sqrt(sum N²). n like pops: sqrt(n) times.
double f_number_of_sum(std::span<const double> f_numbers);
double f_number_of_pops(double f_number, int pops);

/// Lighting ratio both ways; print which. `key_f` and `fill_f` are read with one light at a time,
/// both reach the lit side and the fill alone the shadow side.
struct LightingRatio {
    double key_to_fill = 1.0;         ///< K:F
    double lit_to_shadow = 2.0;       ///< (K+F):F
    double stops_key_over_fill = 0.0; ///< log2(K/F)
    double stops_lit_to_shadow = 1.0; ///< log2((K+F)/F)
};
LightingRatio lighting_ratio(double key_f_number, double fill_f_number);
/// Stops of key over fill that make a lit:shadow ratio: log2(ratio - 1); ratio > 1.
double stops_key_over_fill(double lit_to_shadow_ratio);

/// Readings of each alone so that both together read `total_f_number` with (K+F):F = `ratio` > 1.
struct KeyAndFill {
    double key_f_number = 0.0, fill_f_number = 0.0;
};
KeyAndFill solve_key_and_fill(double total_f_number, double lit_to_shadow_ratio);

/// Stops that a light's reading must change (power) to read `wanted` instead of `present`.
double power_change_stops(double present_f_number, double wanted_f_number);

/// Ambient light beside flash: f-number of E t, its stops relative to the flash at the set
/// aperture, and how much it adds to the total.
struct AmbientShare {
    double stops_below_exposure = 0.0; ///< ambient exposure relative to the metered one, stops
    double stops_added = 0.0;          ///< to a flash that alone is right
};
AmbientShare ambient_share(double illuminance_lx, double f_number, double shutter_s, double iso,
                           double c_lx_s = default_flat_c_lx_s);

/// Fraction of the frame that the second curtain has covered when a short flash fires at the moment
/// the first is fully open (plus a delay): 0 at or below sync speed.
double sync_dark_fraction(double shutter_s, double curtain_travel_s, double delay_s = 0.0);

} // namespace keystead
