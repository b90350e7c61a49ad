#include "sim/light/output.h"

#include <algorithm>
#include <cmath>

namespace keystead {

double flash_luminous_energy_lm_s(double energy_ws, double efficacy_lm_per_w) {
    return energy_ws * efficacy_lm_per_w;
}

double power_factor(double stops_below) {
    return std::exp2(-stops_below);
}

double isotropic_intensity(double luminous_energy_lm_s) {
    return luminous_energy_lm_s / (4.0 * pi);
}

double lambertian_axial_intensity(double luminous_energy_lm_s) {
    return luminous_energy_lm_s / pi;
}

double exposure_of_intensity(double intensity_cd_s, double distance_m) {
    return intensity_cd_s / (distance_m * distance_m);
}

double guide_number_m(double intensity_cd_s, double iso, double c_lx_s) {
    return std::sqrt(intensity_cd_s * iso / c_lx_s);
}

double intensity_of_guide_number_cd_s(double guide_number_m, double iso, double c_lx_s) {
    return guide_number_m * guide_number_m * c_lx_s / iso;
}

double guide_number_at_iso(double guide_number, double from_iso, double to_iso) {
    return guide_number * std::sqrt(to_iso / from_iso);
}

double guide_number_at_power(double guide_number, double stops_below) {
    return guide_number * std::sqrt(power_factor(stops_below));
}

double guide_coefficient_per_ft2(double c_lx_s) {
    return 1.0 / (metres_per_foot * metres_per_foot * c_lx_s);
}

double c_of_guide_coefficient_lx_s(double coefficient) {
    return 1.0 / (metres_per_foot * metres_per_foot * coefficient);
}

double face_output(const Light& light) {
    const Head& head = light.head;
    const double lamp = head.kind == HeadKind::flash
                            ? flash_luminous_energy_lm_s(head.energy_ws, head.efficacy_lm_per_w)
                            : head.lumens;
    const double gel = light.modifier.gel ? light.modifier.gel->transmission : 1.0;
    return lamp * light.modifier.transmission * gel;
}

double axial_exposure(const Emitter& emitter, double distance_m) {
    // Enough points that a narrow grid's edge is resolved to 1e-4.
    constexpr int points = 2048;
    const Vec3 receptor = emitter.centre_m + distance_m * emitter.axes[2];
    double sum = 0.0;
    for (const EmitterPoint& point : emitter_points(emitter, points)) {
        const Vec3 offset = receptor - point.position_m;
        const double distance2 = glm::dot(offset, offset);
        const Vec3 direction = offset / std::sqrt(distance2);
        const double leaving = std::max(0.0, glm::dot(point.normal, direction));
        const double arriving = std::max(0.0, glm::dot(emitter.axes[2], direction));
        sum += radiance(emitter, point, direction) * leaving * arriving * point.area_m2 / distance2;
    }
    return sum;
}

double calibrated_exitance(const Emitter& emitter, const CalibrationReading& reading, HeadKind kind,
                           double flat_c_lx_s) {
    Emitter unit = emitter;
    unit.exitance = 1.0;
    const double per_exitance = axial_exposure(unit, reading.distance_m);
    // ISO 2720 incident form: N² = H S / C; continuous light builds H up over the shutter time.
    const double exposure = flat_c_lx_s * reading.f_number * reading.f_number / reading.iso /
                            (kind == HeadKind::continuous ? reading.shutter_s : 1.0);
    return per_exitance > 0.0 ? exposure / power_factor(reading.stops_below_full) / per_exitance
                              : 0.0;
}

double axial_intensity(const Emitter& emitter) {
    // A disc of diameter D reads 1/(4 k²) below a point at k D: 1e-6 here.
    constexpr double sizes_away = 500.0;
    const double far_m = sizes_away * std::max({emitter.width_m, emitter.height_m, 0.01});
    return axial_exposure(emitter, far_m) * far_m * far_m;
}

double full_power_exitance(const Emitter& emitter, const Light& light, const MeterSettings& meter) {
    const Head& head = light.head;
    if (head.calibration)
        return calibrated_exitance(emitter, *head.calibration, head.kind, meter.flat_c_lx_s);
    const bool flash = head.kind == HeadKind::flash;
    if (flash && (head.beam_cd_s || head.guide_number_m)) {
        constexpr double guide_iso = 100.0;
        const double wanted = head.beam_cd_s
                                  ? *head.beam_cd_s
                                  : intensity_of_guide_number_cd_s(*head.guide_number_m, guide_iso,
                                                                   meter.flat_c_lx_s);
        Emitter unit = emitter;
        unit.exitance = 1.0;
        const double per_exitance = axial_intensity(unit);
        return per_exitance > 0.0 ? wanted / per_exitance : 0.0;
    }
    return face_output(light) / emitter.area_m2;
}

} // namespace keystead
