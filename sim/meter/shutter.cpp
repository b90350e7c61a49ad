#include "sim/meter/shutter.h"

#include "sim/light/exposure.h"
#include "sim/light/flash_tail.h"
#include "sim/light/mixed_colour.h"
#include "sim/light/output.h"

#include <array>
#include <cmath>
#include <cstdio>

namespace keystead {

namespace {

std::optional<Leak> leak_of(double leak_lx_s, double flash_lx_s) {
    if (leak_lx_s <= 0.0 || flash_lx_s <= 0.0) return {};
    const double share = leak_lx_s / flash_lx_s;
    return Leak{std::log2(share), std::log2(1.0 + share)};
}

/// Light of a head's modelling lamp over the exposure, as a share of its flash. Both lamps sit in
/// the same place and shine through the same modifier, so only what they put out counts.
double modelling_share(const Light& light, double shutter_s) {
    const Head& head = light.head;
    const double flash = flash_luminous_energy_lm_s(head.energy_ws, head.efficacy_lm_per_w) *
                         power_factor(head.power_stops_below);
    return flash > 0.0 ? head.modelling_w * modelling_lm_per_w * shutter_s / flash : 0.0;
}

double modelling_lx_s(const Set& set, const PointReading& face) {
    double sum = 0.0;
    for (std::size_t i = 0; i < face.lights.size(); ++i)
        sum += face.lights[i].exposure_lx_s.value_or(0.0) *
               modelling_share(set.lights[i], set.camera.shutter_s);
    return sum;
}

/// Focal-plane curtains run down the sensor, whose picture stands on its head: the second one
/// covers the picture's foot first (common practice).
std::string dark_edge_of(const Camera& camera) {
    return camera.orientation == Orientation::landscape
               ? "the bottom edge"
               : "the side that was the bottom before the camera was turned upright";
}

std::vector<TailLoss> tails_of(const Set& set) {
    // Where a band is dark already, the row beside it counts.
    const double first_open =
        sync_dark_fraction(set.camera.shutter_s, curtain_travel_s(set.camera));
    std::vector<TailLoss> tails;
    for (const Light& light : set.lights) {
        if (!light.on || light.head.kind != HeadKind::flash) continue;
        const double t05_s = light.head.flash_t05_s;
        constexpr double beside = 0.02; // a row's worth inside the band's soft edge
        const double row = first_open > 0.0 ? std::min(1.0, first_open + beside) : 0.0;
        tails.push_back({light.id, tail_loss_stops(set.camera, row, t05_s),
                         tail_loss_stops(set.camera, 1.0, t05_s)});
    }
    return tails;
}

void add_colours(ShutterReading& reading, const Set& set, const PointReading& face,
                 double modelling) {
    std::vector<ColourShare> colours;
    for (const LightAtPoint& light : face.lights)
        if (light.exposure_lx_s) colours.push_back({light.colour_k, *light.exposure_lx_s});
    reading.flash_k = mixed_colour_k(colours);
    for (const LightAtPoint& light : face.lights)
        if (light.illuminance_lx)
            colours.push_back({light.colour_k, *light.illuminance_lx * set.camera.shutter_s});
    colours.push_back({set.room.ambient_k, room_light_lx_s(set)});
    colours.push_back({modelling_k, modelling});
    reading.mixed_k = mixed_colour_k(colours);
}

/// Whole numbers under one second of the third-stop scale, as dials print them.
constexpr std::array<double, 40> marks_per_s = {
    32000, 25000, 20000, 16000, 12800, 10000, 8000, 6400, 5000, 4000, 3200, 2500, 2000, 1600,
    1250,  1000,  800,   640,   500,   400,   320,  250,  200,  160,  125,  100,  80,   60,
    50,    40,    30,    25,    20,    15,    13,   10,   8,    6,    5,    4};

} // namespace

ShutterReading read_shutter(const Set& set, const PointReading& face) {
    ShutterReading reading;
    reading.flash = face.flash_lx_s > 0.0;
    if (!reading.flash) return reading;
    const Camera& camera = set.camera;
    const double modelling = modelling_lx_s(set, face);
    reading.room_light = leak_of(room_light_lx_s(set), face.flash_lx_s);
    reading.modelling = leak_of(modelling, face.flash_lx_s);
    reading.dark_share = sync_dark_fraction(camera.shutter_s, curtain_travel_s(camera));
    if (reading.dark_share > 0.0) reading.dark_edge = dark_edge_of(camera);
    reading.beyond_sync = camera.shutter_s < camera.sync_s * (1.0 - 1e-9);
    reading.tails = tails_of(set);
    add_colours(reading, set, face, modelling);
    return reading;
}

std::string shutter_words(double shutter_s) {
    std::array<char, 32> text{};
    if (shutter_s < 0.3)
        std::snprintf(text.data(), text.size(), "1/%.0f s", 1.0 / shutter_s);
    else
        std::snprintf(text.data(), text.size(), "%.2g s", shutter_s);
    return text.data();
}

double shutter_mark_at_least_s(double time_s) {
    for (const double mark : marks_per_s)
        if (1.0 / mark >= time_s * 0.999) return 1.0 / mark;
    // Slower than 1/4 s: full thirds.
    return std::exp2(std::ceil(3.0 * std::log2(time_s) - 1e-9) / 3.0);
}

} // namespace keystead
