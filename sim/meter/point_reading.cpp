#include "sim/meter/point_reading.h"

#include "sim/light/colour.h"
#include "sim/light/mixed_colour.h"

#include <cmath>

namespace keystead {

namespace {

Dial dial_of(const Set& set, Receptor receptor, double exposure_lx_s) {
    if (exposure_lx_s <= 0.0) return {};
    const double f_number = f_number_on(set, receptor, exposure_lx_s);
    return {f_number, meter_notation(f_number)};
}

/// Each light alone at the probe, lx·s, and how much of all that is bounce.
struct Exposures {
    std::vector<double> lights;
    double bounced = 0.0;
};

Exposures exposures_at(const Studio& studio, const ReadingAids& aids, const Probe& probe) {
    Exposures exposures;
    const std::vector<double> bounces = bounces_lx_s(studio, aids, probe);
    for (std::size_t i = 0; i < studio.emitters.size(); ++i) {
        exposures.lights.push_back(direct_lx_s(studio, aids, i, probe, 256) +
                                   off_panels_lx_s(studio, aids, i, probe) + bounces[i]);
        exposures.bounced += bounces[i];
    }
    return exposures;
}

LightAtPoint read_light(const Studio& studio, std::size_t index, Receptor receptor,
                        double exposure_lx_s, double total_lx_s) {
    const Set& set = studio.set;
    LightAtPoint light;
    light.light = set.lights[index].id;
    light.colour_k = light_colour_k(set.lights[index]);
    light.alone = dial_of(set, receptor, exposure_lx_s);
    // A total less one of its terms may miss zero by a rounding error.
    const double rest = total_lx_s - exposure_lx_s;
    light.without = dial_of(set, receptor, rest > 1e-12 * total_lx_s ? rest : 0.0);
    if (total_lx_s > 0.0) light.share = exposure_lx_s / total_lx_s;
    if (!set.lights[index].on)
        light.alone.reading = "off";
    else if (studio.emitters[index].flash)
        light.exposure_lx_s = exposure_lx_s;
    else
        light.illuminance_lx = exposure_lx_s / set.camera.shutter_s;
    return light;
}

void add_totals(PointReading& point, const Studio& studio, Receptor receptor,
                const Exposures& at_point) {
    const std::vector<double>& exposures = at_point.lights;
    const Set& set = studio.set;
    const double room = room_light_lx_s(set);
    double total = room;
    std::vector<ColourShare> colours{{set.room.ambient_k, room}};
    point.continuous_lx = set.room.ambient_lx;
    for (std::size_t i = 0; i < exposures.size(); ++i) {
        total += exposures[i];
        colours.push_back({light_colour_k(set.lights[i]), exposures[i]});
        if (studio.emitters[i].flash)
            point.flash_lx_s += exposures[i];
        else
            point.continuous_lx += exposures[i] / set.camera.shutter_s;
    }
    for (std::size_t i = 0; i < exposures.size(); ++i)
        point.lights.push_back(read_light(studio, i, receptor, exposures[i], total));
    point.together = dial_of(set, receptor, total);
    if (total > 0.0) {
        point.room_light_share = room / total;
        point.bounce_share = at_point.bounced / total;
    }
    point.colour_k = mixed_colour_k(colours);
}

PointReading read_probe(const Studio& studio, const ReadingAids& aids, const MeterPoint& point,
                        const std::optional<Probe>& probe) {
    PointReading reading;
    reading.point = point;
    if (!probe) return reading;
    reading.facing = probe->facing;
    add_totals(reading, studio, probe->receptor, exposures_at(studio, aids, *probe));
    return reading;
}

} // namespace

std::optional<double> stops_lost_without(const PointReading& point, const LightAtPoint& light) {
    if (!point.together.f_number || !light.without.f_number) return {};
    return stops_between_f_numbers(*light.without.f_number, *point.together.f_number);
}

double light_colour_k(const Light& light) {
    return gelled_colour_k(light.head.colour_k,
                           light.modifier.gel ? light.modifier.gel->mired_shift : 0.0);
}

std::vector<PointReading> read_points(const Studio& studio, const ReadingAids& aids) {
    const Probe dome = dome_at_face(studio);
    MeterPoint face;
    face.id = face_point;
    face.position_m = dome.position_m;
    std::vector<PointReading> points{read_probe(studio, aids, face, dome)};
    for (const MeterPoint& point : studio.set.meter_points)
        points.push_back(read_probe(studio, aids, point, probe_of(studio, point)));
    return points;
}

} // namespace keystead
