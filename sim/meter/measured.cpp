#include "sim/meter/measured.h"

#include "sim/light/exposure.h"

#include <algorithm>
#include <cmath>

namespace keystead {

namespace {

const MeterPoint* point_of(const Set& set, const std::string& id) {
    const auto found = std::find_if(set.meter_points.begin(), set.meter_points.end(),
                                    [&](const MeterPoint& point) { return point.id == id; });
    return found == set.meter_points.end() ? nullptr : &*found;
}

/// How the meter was held: flat toward the light, a dome as the point says.
std::optional<Probe> held(const Studio& studio, const MeasuredReading& reading, std::size_t light) {
    const bool flat = reading.receptor == ReceptorKind::flat;
    if (reading.at == face_point) return flat ? flat_at_face(studio, light) : dome_at_face(studio);
    MeterPoint point = *point_of(studio.set, reading.at);
    point.receptor = reading.receptor;
    if (flat) point.toward = reading.light;
    return probe_of(studio, point);
}

MeasuredRow compare(const Studio& studio, const ReadingAids& aids, const MeasuredReading& reading) {
    MeasuredRow row{reading, {}, {}, ""};
    const Set& set = studio.set;
    const std::optional<std::size_t> light = light_index(set, reading.light);
    if (!light) {
        row.problem = "there is no light " + reading.light;
        return row;
    }
    if (reading.at != face_point && point_of(set, reading.at) == nullptr) {
        row.problem = "there is no meter point " + reading.at;
        return row;
    }
    const std::optional<Probe> probe = held(studio, reading, *light);
    const double exposure = probe ? direct_lx_s(studio, aids, *light, *probe, 256) +
                                        off_panels_lx_s(studio, aids, *light, *probe) +
                                        bounces_lx_s(studio, aids, *probe)[*light]
                                  : 0.0;
    if (exposure <= 0.0) {
        row.problem = !probe                  ? "the point is to face a light that the set lacks"
                      : set.lights[*light].on ? "no light is predicted there"
                                              : "the light is off";
        return row;
    }
    row.predicted_f_number = f_number_on(set, probe->receptor, exposure);
    row.stops = stops_between_f_numbers(*row.predicted_f_number, reading.f_number);
    return row;
}

std::optional<LightCorrection> correction_of(const std::string& light,
                                             const std::vector<MeasuredRow>& rows) {
    LightCorrection correction{light, 0, 0.0, 0.0};
    double lowest = 1e9, highest = -1e9;
    for (const MeasuredRow& row : rows) {
        if (row.measured.light != light || !row.stops) continue;
        ++correction.readings;
        correction.stops += *row.stops;
        lowest = std::min(lowest, *row.stops);
        highest = std::max(highest, *row.stops);
    }
    if (correction.readings == 0) return {};
    correction.stops /= correction.readings;
    correction.spread_stops = highest - lowest;
    return correction;
}

} // namespace

MeasuredTable compare_measured(const Studio& studio, const ReadingAids& aids) {
    MeasuredTable table;
    for (const MeasuredReading& reading : studio.set.measured)
        table.rows.push_back(compare(studio, aids, reading));
    for (const Light& light : studio.set.lights)
        if (const auto correction = correction_of(light.id, table.rows))
            table.corrections.push_back(*correction);
    return table;
}

double correction_stops(const MeasuredTable& table, const std::string& light) {
    for (const LightCorrection& correction : table.corrections)
        if (correction.light == light) return correction.stops;
    return 0.0;
}

Dial corrected_together(const Set& set, const PointReading& point, const MeasuredTable& table) {
    double total = point.facing ? room_light_lx_s(set) : 0.0;
    for (const LightAtPoint& light : point.lights) {
        const double alone =
            light.exposure_lx_s.value_or(light.illuminance_lx.value_or(0.0) * set.camera.shutter_s);
        total += alone * std::exp2(correction_stops(table, light.light));
    }
    if (total <= 0.0) return {};
    const Receptor receptor =
        point.point.receptor == ReceptorKind::flat ? Receptor::flat : Receptor::dome;
    const double f_number = f_number_on(set, receptor, total);
    return {f_number, meter_notation(f_number)};
}

} // namespace keystead
