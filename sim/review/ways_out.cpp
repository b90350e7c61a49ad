#include "sim/review/ways_out.h"

#include "sim/light/stops.h"
#include "sim/review/say.h"

#include <array>
#include <cmath>

namespace keystead {

namespace {

std::string by_distance(const Bench& bench, const Emitter& emitter, double stops) {
    const double now_m = glm::length(emitter.centre_m - bench.marks.face);
    const auto wanted_m = distance_for_stops(emitter, now_m, stops);
    if (!wanted_m)
        return stops > 0.0 ? "no distance is near enough for a face of its size"
                           : "no distance in reach is far enough";
    return std::string(stops > 0.0 ? "bring it to " : "take it to ") +
           say::with_unit(*wanted_m, 2, "m") + " from the face (" +
           say::number(100.0 * *wanted_m / now_m, 0) + " % of where it is)";
}

/// Stops that a gel takes.
double gel_loss_stops(const Light& light) {
    return light.modifier.gel ? -std::log2(std::max(1e-6, light.modifier.gel->transmission)) : 0.0;
}

// A layer of diffusion takes half a stop to one (common practice).
std::string with_less_in_the_way(const Bench& bench, std::size_t index) {
    const Light& light = bench.studio.set.lights[index];
    const Emitter& emitter = bench.studio.emitters[index];
    const double grid = grid_loss_stops(emitter, glm::length(emitter.centre_m - bench.marks.face));
    const double gel = gel_loss_stops(light);
    std::string text;
    const auto add = [&text](const std::string& part) {
        text += (text.empty() ? "" : ", ") + part;
    };
    if (grid > 0.05) add("take off its grid (" + say::stops(grid) + ")");
    if (gel > 0.05) add("take out its gel (" + say::stops(gel) + ")");
    if (light.modifier.diffusion_layers > 1)
        add("take out a layer of diffusion (half to one stop)");
    add("fit a modifier that passes more");
    return text;
}

std::string with_more_in_the_way(const Bench& bench, std::size_t index, double stops) {
    std::string text =
        "a neutral gel of " + say::stops(stops) + ", a layer of diffusion (half to one stop)";
    if (!bench.studio.set.lights[index].modifier.grid)
        text += " or a grid (less on the axis than off it)";
    return text;
}

std::string by_camera(const Bench& bench, double stops) {
    const bool more = stops > 0.0;
    std::string text = "f/" + nominal_f_number(f_number_plus_stops(bench.camera_f_number, -stops)) +
                       " on the camera";
    text += more ? " or ISO " + iso_at_least(bench.iso * std::exp2(stops))
                 : ", a lower ISO, or " + say::stops(stops) + " of neutral filter on the lens";
    return text + ", and every other light " + say::more_or_less(-stops);
}

} // namespace

std::string iso_at_least(double iso) {
    // Marks of one decade, common practice (the thirds of ISO 100 rounded).
    constexpr std::array<double, 10> decade{100, 125, 160, 200, 250, 320, 400, 500, 640, 800};
    if (!(iso > 0.0) || !std::isfinite(iso)) return "unknown";
    double scale = std::pow(10.0, std::floor(std::log10(iso * 1.0001)) - 2.0);
    constexpr double rounding = 0.985; // 158.7 is the 160 of the scale
    for (int decades = 0; decades < 2; ++decades, scale *= 10.0)
        for (const double mark : decade)
            if (mark * scale >= iso * rounding) return say::number(mark * scale, 0);
    return say::number(iso, 0);
}

std::string beyond_range(const PowerSetting& setting) {
    if (setting.missing_stops > 0.0)
        return "Full power is " + say::stops(setting.missing_stops) + " short.";
    if (setting.excess_stops > 0.0)
        return "Its lowest power is " + say::stops(setting.excess_stops) + " too much.";
    return "";
}

std::string ways_out(const Bench& bench, std::size_t light, const PowerSetting& setting) {
    const Emitter& emitter = bench.studio.emitters[light];
    if (setting.reached()) return "";
    const bool more = setting.missing_stops > 0.0;
    const double stops = more ? setting.missing_stops : -setting.excess_stops;
    return "Three ways: " + by_distance(bench, emitter, stops) + "; " +
           (more ? with_less_in_the_way(bench, light)
                 : with_more_in_the_way(bench, light, -stops)) +
           "; or " + by_camera(bench, stops) + ".";
}

} // namespace keystead
