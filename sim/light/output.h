// How much light a head puts out: stored energy, guide numbers, beam candela-seconds, and the
// exitance of a modifier's face.
//
// Flash quantities are time integrals: luminous energy lm·s, intensity cd·s, exposure lx·s.
#pragma once

#include "sim/light/emitter.h"
#include "sim/set/set.h"

namespace keystead {

/// Luminous energy of a flash from its stored energy. Makers print 15 to 45 lm·s a W·s, so stored
/// energy alone fixes an exposure only to about 0.8 stop either way.
double flash_luminous_energy_lm_s(double energy_ws, double efficacy_lm_per_w);

/// Linear power factor of a head set so many stops below full.
double power_factor(double stops_below);

/// Intensity of a source that shines alike in all directions, and on the axis of a Lambertian face.
double isotropic_intensity(double luminous_energy_lm_s);
double lambertian_axial_intensity(double luminous_energy_lm_s);

/// Far-field exposure H = I / d² of an axial intensity.
double exposure_of_intensity(double intensity_cd_s, double distance_m);

/// Guide number GN = N·d in metres of a beam: sqrt(I S / C). And back.
double guide_number_m(double intensity_cd_s, double iso, double c_lx_s);
double intensity_of_guide_number_cd_s(double guide_number_m, double iso, double c_lx_s);
/// GN grows with the square root of speed and of energy.
double guide_number_at_iso(double guide_number, double from_iso, double to_iso);
double guide_number_at_power(double guide_number, double stops_below);

inline constexpr double metres_per_foot = 0.3048;
/// The trade writes GN_ft = sqrt(k · cd·s · S). k follows from C (0.0431 for 250); the k = 0.063
/// seen in old tables (from memory) assumes a reflective room. Contested, hence both directions.
double guide_coefficient_per_ft2(double c_lx_s);
double c_of_guide_coefficient_lx_s(double coefficient);

/// Luminous energy (flash) or flux (continuous) that leaves the face at full power, before the
/// grid: lamp × modifier transmission × gel transmission.
double face_output(const Light& light);

/// Flat-receptor exposure on the emitter's axis, `distance_m` before its front, at full power and
/// with nothing in the way.
double axial_exposure(const Emitter& emitter, double distance_m);

/// Mean exitance at full power that makes the predicted on-axis exposure equal the reading.
double calibrated_exitance(const Emitter& emitter, const CalibrationReading& reading, HeadKind kind,
                           double flat_c_lx_s);

/// Intensity on the axis at full power, seen from so far away that the face is a point: cd·s of a
/// flash, cd of continuous light.
double axial_intensity(const Emitter& emitter);

/// What the head and modifier of `light` give `emitter` (its face, without output yet): mean
/// exitance at full power, from the first of these that the head states: calibration reading, beam
/// intensity, guide number (the last two for flash only, all with the modifier as fitted), stored
/// energy or lumens.
double full_power_exitance(const Emitter& emitter, const Light& light, const MeterSettings& meter);

} // namespace keystead
