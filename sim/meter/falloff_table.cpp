#include "sim/meter/falloff_table.h"

#include "sim/light/emitter.h"
#include "sim/light/exposure.h"
#include "sim/light/falloff.h"
#include "sim/light/output.h"
#include "sim/light/stops.h"
#include "sim/meter/meter_point.h"
#include "sim/review/say.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace keystead {

namespace {

/// The light's face by itself: distances count from it, so its place in the room does not.
Emitter face_of(const Set& set, Light light) {
    light.on = true;
    return make_emitter(light, SupportPose{}, set.meter);
}

double f_number_at(const Set& set, const Emitter& emitter, double distance_m) {
    const double time_s = counted_time_s(emitter, set.camera);
    return f_number_of_exposure(emitter.power * time_s * axial_exposure(emitter, distance_m),
                                set.camera.iso, set.meter.flat_c_lx_s);
}

std::string size_words(const Emitter& emitter) {
    if (emitter.shape == ModifierShape::rectangle)
        return say::number(emitter.width_m, 2) + " × " + say::with_unit(emitter.height_m, 2, "m");
    return say::with_unit(emitter.width_m, 2, "m");
}

std::string why_words(const Emitter& emitter, const FalloffTable& table) {
    const auto nearest = std::min_element(
        table.rows.begin(), table.rows.end(),
        [](const FalloffRow& a, const FalloffRow& b) { return a.distance_m < b.distance_m; });
    const double size_m = std::max(emitter.width_m, emitter.height_m);
    const double off = nearest->stops_from_rule;
    std::string text = "The rule holds for a point; this face is " + size_words(emitter) +
                       ", and near it much of it is seen from the side and farther off than its "
                       "middle, so light grows less toward it than the rule says";
    if (std::abs(off) >= 0.05)
        text += " (" + say::stops(off) + (off < 0.0 ? " less" : " more") + " at " +
                say::with_unit(nearest->distance_m, 2, "m") + ")";
    // A disc of diameter D at k D is over-estimated by 1/(4 k²): 1 % at five times.
    return text + "; beyond " + say::with_unit(5.0 * size_m, 1, "m") +
           ", five times its size, they run alike.";
}

} // namespace

FalloffTable falloff_table(const Set& set, const Light& light, double reference_m,
                           const std::vector<double>& distances_m) {
    const Emitter emitter = face_of(set, light);
    FalloffTable table;
    table.reference_m = reference_m;
    const double reference = f_number_at(set, emitter, reference_m);
    for (const double distance_m : distances_m) {
        FalloffRow row;
        row.distance_m = distance_m;
        row.f_number = f_number_at(set, emitter, distance_m);
        row.rule_f_number =
            f_number_plus_stops(reference, inverse_square_stops(reference_m, distance_m));
        row.stops_from_rule = stops_between_f_numbers(row.rule_f_number, row.f_number);
        table.rows.push_back(row);
    }
    if (!table.rows.empty()) table.why = why_words(emitter, table);
    return table;
}

std::vector<double> round_distances_m(double from_m, double to_m) {
    constexpr std::array<double, 9> steps{0.05, 0.1, 0.25, 0.5, 1.0, 2.5, 5.0, 10.0, 25.0};
    constexpr double most = 8.0;
    const auto step = std::find_if(steps.begin(), steps.end() - 1,
                                   [&](double s) { return (to_m - from_m) / s <= most + 1e-9; });
    constexpr double apart_m = 1e-6;
    std::vector<double> distances{from_m};
    for (double n = std::floor(from_m / *step) + 1.0; n * *step < to_m - apart_m; n += 1.0) {
        const double centimetres = std::round(100.0 * n * *step); // steps are whole ones
        if (0.01 * centimetres > from_m + apart_m) distances.push_back(centimetres / 100.0);
    }
    if (to_m > from_m + apart_m) distances.push_back(to_m);
    return distances;
}

CalibrationReading calibration_from(const Set& set, const Light& light, double f_number,
                                    double distance_m) {
    CalibrationReading reading;
    reading.f_number = f_number;
    reading.distance_m = distance_m;
    reading.iso = set.camera.iso;
    reading.stops_below_full = light.head.power_stops_below;
    reading.shutter_s = set.camera.shutter_s;
    return reading;
}

CalibrationReading calibration_changed_by(const Set& set, const Light& light, double stops) {
    // Where it was calibrated before, else at a usual working distance.
    const double distance_m = light.head.calibration ? light.head.calibration->distance_m : 1.5;
    const double now = f_number_at(set, face_of(set, light), distance_m);
    return calibration_from(set, light, f_number_plus_stops(now, stops), distance_m);
}

} // namespace keystead
