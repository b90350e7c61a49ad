// From luminance to the sensor and the picture's numbers: ISO 12232 exposures, sRGB, CIE lightness,
// and small reflectance formulas.
#pragma once

namespace keystead {

/// Lens factor q = pi/4 T v cos⁴θ of ISO 12232 (T 0.90, v 0.98, θ 10 degrees give the quoted 0.65).
double lens_factor(double transmittance, double vignetting, double off_axis_deg);
inline constexpr double default_lens_factor = 0.65;

/// Exposure at the sensor, H = q L t / N², lx·s.
double sensor_exposure_lx_s(double luminance_cd_m2, double time_s, double f_number,
                            double lens_factor = default_lens_factor);
/// Saturating exposure 78/S, and the middle exposure 10/S of the standard output sensitivity.
double saturation_exposure_lx_s(double iso);
double standard_output_exposure_lx_s(double iso);
/// Where a reflectance lands as a fraction of saturation: ISO 12232 leaves half a stop above white.
double fraction_of_saturation(double reflectance);
/// Luminance that saturates at an EV100: 78 / (100 q) 2^EV.
double saturating_luminance_cd_m2(double ev100, double lens_factor = default_lens_factor);
/// Sensor exposure of a Lambertian card when its light was metered with an incident meter.
double metered_card_exposure_lx_s(double reflectance, double iso, double c_lx_s,
                                  double lens_factor = default_lens_factor);
/// Reflectance that just saturates under that metering.
double saturating_reflectance(double c_lx_s, double lens_factor = default_lens_factor);

/// sRGB transfer curve (IEC 61966-2-1) both ways, 0..1, and the unrounded 8-bit code.
double srgb_encode(double linear);
double srgb_decode(double encoded);
double srgb_code(double linear);

/// CIE 1976 lightness L* of a luminance factor (white = 1).
double cie_lightness(double luminance_factor);

/// Reflectance of an optical density: 10^-D.
double reflectance_of_density(double density);
/// Fresnel reflectance at normal incidence: ((n - 1)/(n + 1))².
double fresnel_normal(double refractive_index);

} // namespace keystead
