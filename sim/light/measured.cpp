#include "sim/light/measured.h"

#include "sim/light/emitter.h"
#include "sim/light/emitter_face.h"
#include "sim/light/output.h"
#include "sim/photometry/distribution.h"

#include <algorithm>
#include <cmath>

namespace keystead {

namespace {

constexpr double plane_step_deg = 360.0 / (DirectionTable::planes - 1);
constexpr double angle_step_deg = 180.0 / (DirectionTable::angles - 1);

Vec3 toward(double v_deg, double h_deg) {
    const double v = radians(v_deg), h = radians(h_deg);
    return {std::sin(v) * std::cos(h), std::sin(v) * std::sin(h), std::cos(v)};
}

double value(const DirectionTable& table, int plane, int angle) {
    return static_cast<double>(
        table.per_lumen_sr[static_cast<std::size_t>(plane) * DirectionTable::angles +
                           static_cast<std::size_t>(angle)]);
}

/// Integral over the sphere of what the table says between its values: trapezoids in H, in each
/// zone of V the mean of its two ends weighed by the zone's solid angle.
double integral(const DirectionTable& table) {
    double sum = 0.0;
    for (int angle = 0; angle + 1 < DirectionTable::angles; ++angle) {
        const double zone = std::cos(radians(angle * angle_step_deg)) -
                            std::cos(radians((angle + 1) * angle_step_deg));
        double mean = 0.0;
        for (int plane = 0; plane + 1 < DirectionTable::planes; ++plane)
            mean += 0.5 * (value(table, plane, angle) + value(table, plane, angle + 1));
        sum += 2.0 * pi * zone * mean / (DirectionTable::planes - 1);
    }
    return sum;
}

} // namespace

std::shared_ptr<const DirectionTable> direction_table(const Distribution& distribution,
                                                      double turn_deg, std::uint64_t key) {
    auto table = std::make_shared<DirectionTable>();
    table->key = key;
    table->per_lumen_sr.reserve(std::size_t{DirectionTable::planes} * DirectionTable::angles);
    for (int plane = 0; plane < DirectionTable::planes; ++plane)
        for (int angle = 0; angle < DirectionTable::angles; ++angle)
            table->per_lumen_sr.push_back(static_cast<float>(candela_toward(
                distribution, toward(angle * angle_step_deg, plane * plane_step_deg - turn_deg))));
    table->lumens = integral(*table);
    if (!(table->lumens > 0.0)) return nullptr;
    const auto per_lumen = static_cast<float>(1.0 / table->lumens);
    for (float& one : table->per_lumen_sr) {
        one *= per_lumen;
        table->peak_per_lumen_sr = std::max(table->peak_per_lumen_sr, static_cast<double>(one));
    }
    return table;
}

double intensity_per_lumen(const DirectionTable& table, const Vec3& local) {
    const double v = degrees(std::atan2(std::hypot(local.x, local.y), local.z)) / angle_step_deg;
    double h = degrees(std::atan2(local.y, local.x)) / plane_step_deg;
    if (h < 0.0) h += DirectionTable::planes - 1;
    const int angle = std::clamp(static_cast<int>(v), 0, DirectionTable::angles - 2);
    const int plane = std::clamp(static_cast<int>(h), 0, DirectionTable::planes - 2);
    const double a = v - angle, p = h - plane;
    return (1.0 - p) *
               ((1.0 - a) * value(table, plane, angle) + a * value(table, plane, angle + 1)) +
           p * ((1.0 - a) * value(table, plane + 1, angle) +
                a * value(table, plane + 1, angle + 1));
}

void fit_measured(Emitter& emitter, const Light& light,
                  const std::shared_ptr<const DirectionTable>& table, const MeterSettings& meter) {
    if (table == nullptr) return;
    emitter.measured = table;
    emitter.beam = {};
    if (emitter.shape == ModifierShape::umbrella) {
        emitter.shape = ModifierShape::disc;
        emitter.depth_m = 0.0;
        emitter.bulges = false;
        emitter.area_m2 = face_area_m2(emitter);
    }
    emitter.exitance = full_power_exitance(emitter, light, meter);
    const Head& head = light.head;
    const bool flash = head.kind == HeadKind::flash;
    if (head.calibration || (flash && (head.beam_cd_s || head.guide_number_m))) return;
    const auto& stated = light.modifier.photometric->lumens;
    if (flash && !stated) return;
    const double gel = light.modifier.gel ? light.modifier.gel->transmission : 1.0;
    emitter.exitance = stated.value_or(table->lumens) * gel / emitter.area_m2;
}

} // namespace keystead
