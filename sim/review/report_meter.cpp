#include "sim/review/report_meter.h"

#include "sim/base/frames.h"
#include "sim/light/colour.h"
#include "sim/light/stops.h"
#include "sim/review/report_parts.h"
#include "sim/review/say.h"

#include <algorithm>
#include <cmath>

namespace keystead {

namespace {

std::string facing_words(const MeterPoint& point) {
    if (point.toward == "camera") return "toward the camera";
    if (!point.toward.empty()) return "toward " + point.toward;
    return "toward " + say::signed_number(point.azimuth_deg, 0) + "° round, " +
           say::signed_number(point.elevation_deg, 0) + "° up";
}

std::string amount_words(const LightAtPoint& light) {
    if (light.exposure_lx_s) return say::with_unit(*light.exposure_lx_s, 1, "lx·s");
    return light.illuminance_lx ? say::with_unit(*light.illuminance_lx, 0, "lx") : "";
}

std::string light_text(const PointReading& point, const LightAtPoint& light, std::size_t width) {
    const std::string start = "    " + padded(light.light, width);
    if (!light.alone.f_number) return start + light.alone.reading + "\n";
    const std::optional<double> lost = stops_lost_without(point, light);
    return start + padded(light.alone.reading, 14) + padded(amount_words(light), 13) +
           padded(say::number(100.0 * light.share, 0) + " %", 6) +
           (lost ? "without it " + light.without.reading + ", " + say::stops(*lost) + " less"
                 : "nothing without it") +
           "\n";
}

Json json_of(const LightAtPoint& light, const PointReading& point) {
    Json json;
    json["id"] = light.light;
    json["exposure_lx_s"] = tidy(light.exposure_lx_s);
    json["illuminance_lx"] = tidy(light.illuminance_lx);
    json["f_number"] = tidy(light.alone.f_number);
    json["reading"] = light.alone.reading;
    json["share"] = tidy(light.share);
    json["without"] = Json{{"f_number", tidy(light.without.f_number)},
                           {"reading", light.without.reading},
                           {"stops", tidy(stops_lost_without(point, light))}};
    json["colour_k"] = tidy(light.colour_k);
    return json;
}

Json json_of(const PointReading& reading) {
    const MeterPoint& point = reading.point;
    Json json;
    json["id"] = point.id;
    json["position_m"] = tidy(point.position_m);
    json["receptor"] = point.receptor == ReceptorKind::flat ? "flat" : "dome";
    json["toward"] = text_or_null(point.toward);
    json["facing_deg"] = nullptr;
    if (reading.facing) {
        const Angles angles = angles_of(*reading.facing);
        json["facing_deg"] = Json::array({tidy(angles.azimuth_deg), tidy(angles.elevation_deg)});
    }
    json["flash_lx_s"] = reading.facing ? tidy(reading.flash_lx_s) : Json(nullptr);
    json["continuous_lx"] = reading.facing ? tidy(reading.continuous_lx) : Json(nullptr);
    json["f_number"] = tidy(reading.together.f_number);
    json["reading"] = reading.facing ? Json(reading.together.reading) : Json(nullptr);
    json["corrected_f_number"] =
        reading.corrected ? tidy(reading.corrected->f_number) : Json(nullptr);
    json["room_light_share"] = tidy(reading.room_light_share);
    json["bounce_share"] = tidy(reading.bounce_share);
    json["colour_k"] = tidy(reading.colour_k);
    json["lights"] = Json::array();
    for (const LightAtPoint& light : reading.lights)
        json["lights"].push_back(json_of(light, reading));
    return json;
}

Json json_of(const std::optional<Leak>& leak) {
    if (!leak) return nullptr;
    return {{"stops_from_flash", tidy(leak->stops_from_flash)},
            {"stops_added", tidy(leak->stops_added)}};
}

std::string leak_text(const char* what, const Leak& leak) {
    return std::string("  ") + what + " " + say::stops(-leak.stops_from_flash) +
           (leak.stops_from_flash < 0.0 ? " below" : " above") + " the flash on the face, adds " +
           say::number(leak.stops_added, 2) + " stop.\n";
}

std::string tails_text(const ShutterReading& shutter) {
    std::string text;
    for (const TailLoss& tail : shutter.tails)
        if (tail.worst_stops >= 0.05)
            text += "  The curtain cuts " + say::stops(tail.worst_stops) + " off " + tail.light +
                    " at one edge of the picture, " + say::number(tail.best_stops, 1) +
                    " at the other.\n";
    return text;
}

Json json_of(const SpotReading& spot) {
    return {{"place", spot.place},
            {"luminance_cd_s_m2", tidy(spot.luminance_cd_s_m2)},
            {"f_number", tidy(spot.dial.f_number)},
            {"reading", spot.note.empty() ? Json(spot.dial.reading) : Json(nullptr)},
            {"stops_from_camera", tidy(spot.stops_from_camera)},
            {"note", text_or_null(spot.note)}};
}

Json json_of(const MeasuredRow& row) {
    return {{"light", row.measured.light},
            {"at", row.measured.at},
            {"receptor", row.measured.receptor == ReceptorKind::flat ? "flat" : "dome"},
            {"measured_f_number", tidy(row.measured.f_number)},
            {"predicted_f_number", tidy(row.predicted_f_number)},
            {"stops", tidy(row.stops)},
            {"note", text_or_null(row.problem)}};
}

std::string row_text(const MeasuredRow& row, std::size_t width) {
    std::string line =
        "  " + padded(row.measured.light, width) +
        padded(row.measured.at + (row.measured.receptor == ReceptorKind::flat ? "" : ", dome"),
               14) +
        padded(meter_notation(row.measured.f_number), 14);
    if (!row.stops) return line + row.problem + ".\n";
    return line + padded(meter_notation(*row.predicted_f_number), 14) +
           say::signed_number(*row.stops, 1) + "\n";
}

} // namespace

Json meter_points_json(const std::vector<PointReading>& points) {
    Json list = Json::array();
    for (const PointReading& point : points) list.push_back(json_of(point));
    return list;
}

Json shutter_json(const ShutterReading& shutter) {
    Json json;
    json["room_light"] = json_of(shutter.room_light);
    json["modelling"] = json_of(shutter.modelling);
    json["dark_share"] = tidy(shutter.dark_share);
    json["dark_edge"] = text_or_null(shutter.dark_edge);
    json["beyond_sync"] = shutter.beyond_sync;
    json["tails"] = Json::array();
    for (const TailLoss& tail : shutter.tails)
        json["tails"].push_back(Json{{"light", tail.light},
                                     {"worst_stops", tidy(tail.worst_stops)},
                                     {"best_stops", tidy(tail.best_stops)}});
    json["flash_k"] = tidy(shutter.flash_k);
    json["mixed_k"] = tidy(shutter.mixed_k);
    return json;
}

Json spots_json(const std::vector<SpotReading>& spots) {
    Json list = Json::array();
    for (const SpotReading& spot : spots) list.push_back(json_of(spot));
    return list;
}

Json measured_json(const MeasuredTable& measured) {
    Json json{{"rows", Json::array()}, {"corrections", Json::array()}};
    for (const MeasuredRow& row : measured.rows) json["rows"].push_back(json_of(row));
    for (const LightCorrection& correction : measured.corrections)
        json["corrections"].push_back(Json{{"light", correction.light},
                                           {"readings", correction.readings},
                                           {"stops", tidy(correction.stops)},
                                           {"spread_stops", tidy(correction.spread_stops)}});
    return json;
}

std::string point_text(const PointReading& reading) {
    const MeterPoint& point = reading.point;
    std::string text = "  " + point.id + " (" +
                       (point.receptor == ReceptorKind::flat ? "flat, " : "dome, ") +
                       facing_words(point) + "): ";
    if (!reading.facing) return text + "there is no light " + point.toward + " to face.\n";
    text += "together " + reading.together.reading;
    if (reading.room_light_share > 0.005)
        text += ", " + say::number(100.0 * reading.room_light_share, 0) + " % of it room light";
    if (reading.bounce_share >= 0.005)
        text += "; " + say::number(100.0 * reading.bounce_share, 0) +
                " % of it by way of walls, floor, background or sitter";
    text += ".\n";
    std::size_t width = 8;
    for (const LightAtPoint& light : reading.lights)
        width = std::max(width, light.light.size() + 2);
    for (const LightAtPoint& light : reading.lights) text += light_text(reading, light, width);
    return text;
}

std::string meter_points_text(const Review& review) {
    std::string text = "Meter\n";
    for (const PointReading& point : review.meter) text += point_text(point);
    return text + "  (Each light alone and its share, at the camera's ISO and shutter; flash in "
                  "lx·s, continuous light in lx. Room light is taken as even all over the set. "
                  "Light by way of panels, walls, floor, background and sitter is counted with the "
                  "light it came from.)\n";
}

Json ratio_json(const ExposureReview& exposure) {
    return {{"key_f_number", tidy(exposure.key_f_number)},
            {"fill_f_number", tidy(exposure.fill_f_number)},
            {"ratio_key_to_fill", tidy(exposure.ratio_key_to_fill)},
            {"stops_key_over_fill", tidy(exposure.stops_key_over_fill)},
            {"ratio_lit_to_shadow", tidy(exposure.ratio_lit_to_shadow)},
            {"stops_lit_to_shadow", tidy(exposure.stops_lit_to_shadow)}};
}

std::string ratio_text(const ExposureReview& e) {
    if (!e.ratio_key_to_fill) return "Ratio\n  No fill in front of the ears: no ratio to give.\n";
    return "Ratio\n  Key " + meter_notation(*e.key_f_number) + ", fill " +
           meter_notation(*e.fill_f_number) + ", each alone.\n  Key to fill (K:F) " +
           say::number(*e.ratio_key_to_fill, 1) + ":1, " +
           say::signed_number(*e.stops_key_over_fill, 1) + " stops.\n  Lit to shadow side " +
           "((K+F):F) " + say::number(*e.ratio_lit_to_shadow, 1) + ":1, " +
           say::signed_number(*e.stops_lit_to_shadow, 1) +
           " stops.\n  (Flat, toward each light; all lights in front of the ears but the key count "
           "as fill. Say which ratio is meant: they differ.)\n";
}

std::string shutter_text(const ShutterReading& shutter) {
    std::string text = "Shutter\n";
    if (!shutter.flash) return text + "  No flash on the face.\n";
    if (shutter.dark_share > 0.0)
        text += "  A curtain covers " + say::number(100.0 * shutter.dark_share, 0) +
                " % of the frame's short side when the flash fires, from " + shutter.dark_edge +
                ".\n";
    else
        text += std::string("  The whole frame is open when the flash fires") +
                (shutter.beyond_sync ? ", by the curtain's travel alone" : "") + ".\n";
    text += shutter.room_light ? leak_text("Room light", *shutter.room_light)
                               : "  No room light is given.\n";
    if (shutter.modelling) text += leak_text("Modelling lamps", *shutter.modelling);
    if (shutter.mixed_k && shutter.flash_k) {
        const double shift = mired_shift_between(*shutter.flash_k, *shutter.mixed_k);
        text += "  Light on the face: " + say::number(*shutter.mixed_k, 0) + " K" +
                (std::abs(shift) >= 1.0
                     ? ", " + say::signed_number(shift, 0) + " mired from the flash alone"
                     : "") +
                ".\n";
    }
    return text + tails_text(shutter) +
           "  (Flash falls off exponentially from its t0.5, the same at any power; modelling lamps "
           "as " +
           say::number(modelling_lm_per_w, 0) +
           " lm/W halogen, all lit. A radio's delay is not "
           "counted.)\n";
}

std::string spots_text(const std::vector<SpotReading>& spots) {
    std::string text = "Spot meter from the camera\n";
    for (const SpotReading& spot : spots) {
        text += "  " + padded(spot.place, 22);
        text += spot.dial.f_number && spot.note.empty()
                    ? padded(spot.dial.reading, 14) +
                          say::signed_number(*spot.stops_from_camera, 1) +
                          " stops from the camera's setting\n"
                    : (spot.note.empty() ? "no light" : spot.note) + "\n";
    }
    return text + "  (1° of the picture, gloss included; reflected light with the set's "
                  "K.)\n";
}

std::string measured_text(const Review& review) {
    const MeasuredTable& table = review.measured;
    if (table.rows.empty()) return "";
    std::size_t width = 8;
    for (const MeasuredRow& row : table.rows)
        width = std::max(width, row.measured.light.size() + 2);
    std::string text = "Measured\n  " + padded("", width) + padded("at", 14) +
                       padded("measured", 14) + padded("predicted", 14) + "stops\n";
    for (const MeasuredRow& row : table.rows) text += row_text(row, width);
    for (const LightCorrection& c : table.corrections)
        text += "  " + padded(c.light, width) + "correction " + say::signed_number(c.stops, 1) +
                (c.readings > 1 ? " (mean of " + std::to_string(c.readings) +
                                      " readings that differ by " + say::stops(c.spread_stops) + ")"
                                : "") +
                "\n";
    for (const PointReading& point : review.meter)
        if (point.corrected)
            text += "  " + padded(point.point.id, width) + "together " + point.together.reading +
                    " predicted, " + point.corrected->reading + " with the corrections\n";
    return text + "  (Figures elsewhere are as predicted.)\n";
}

} // namespace keystead
