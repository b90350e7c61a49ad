// The hand meter in the side panel: where it is held, which way it faces, what it reads of each
// light, and what a real meter read.
#include "engine/ui/meter_section.h"

#include "engine/ui/set_commands.h"
#include "sim/light/stops.h"
#include "sim/meter/falloff_table.h"
#include "sim/meter/reading_list.h"
#include "sim/review/say.h"

#include <algorithm>
#include <cmath>

namespace keystead::ui {

namespace {

const MeterPoint* point_of(const Set& set, const std::string& id) {
    const auto found = std::find_if(set.meter_points.begin(), set.meter_points.end(),
                                    [&](const MeterPoint& point) { return point.id == id; });
    return found == set.meter_points.end() ? nullptr : &*found;
}

const PointReading* reading_of(const Review* review, const std::string& id) {
    if (review == nullptr) return nullptr;
    for (const PointReading& reading : review->meter)
        if (reading.point.id == id) return &reading;
    return nullptr;
}

/// "chin", else "chin 2" …: a name that the set does not have yet.
std::string new_point_id(const Set& set) {
    for (int number = 1;; ++number) {
        std::string id = "point " + std::to_string(number);
        if (point_of(set, id) == nullptr) return id;
    }
}

/// A new point before the sitter's face, a hand's breadth toward the camera.
MeterPoint new_point(const Shown& shown) {
    constexpr double ahead_m = 0.12;
    const Set& set = shown.set();
    MeterPoint point;
    point.id = new_point_id(set);
    if (!shown.drawn.has_subject) return point;
    const Vec3& face = shown.drawn.landmarks.face;
    const Vec3 way = set.camera.position_m - face;
    point.position_m =
        face + ahead_m * (glm::length(way) > 1e-6 ? glm::normalize(way) : Vec3(0, 0, 1));
    return point;
}

void which_point(Flow& flow, const Shown& shown, const std::string& now, MeterDesk& desk) {
    const Set& set = shown.set();
    std::vector<std::string> options{face_point};
    for (const MeterPoint& point : set.meter_points) options.push_back(point.id);
    const int picked = choice_row(flow, "held at", "meter.point", now, options);
    if (picked >= 0) desk.point = options[static_cast<std::size_t>(picked)];
    const float row = flow.y;
    if (link(flow, "meter add", "add a point", flow.left)) {
        std::vector<MeterPoint> points = set.meter_points;
        points.push_back(new_point(shown));
        desk.point = points.back().id;
        flow.out.perform(set_meter_points("add a meter point", points));
    }
    bool away = false;
    if (now != face_point)
        link_right(flow.pen, "meter away", "take it away", flow.right,
                   row + 0.5F * flow.row_height(), away);
    flow.y = row + flow.row_height();
    if (!away) return;
    std::vector<MeterPoint> points = set.meter_points;
    std::erase_if(points, [&](const MeterPoint& point) { return point.id == now; });
    flow.out.perform(set_meter_points("take " + now + " away", points));
    desk.point = face_point;
}

void place_rows(Flow& flow, const MeterPoint& point) {
    const std::string path = meter_path(point.id, "position_m");
    const auto row = [&](const char* label, const char* axis, double value, Vec3 unit) {
        number_row(
            flow, {label, path + axis, value, {Dimension::length, "m", -60, 60, 2, {}}, 0.01, {}},
            [&](double v) { return set_point(path, point.position_m + unit * (v - value)); });
    };
    row("camera right", "/x", point.position_m.x, {1, 0, 0});
    row("height", "/y", point.position_m.y, {0, 1, 0});
    row("from the subject", "/z", point.position_m.z, {0, 0, 1});
}

void facing_rows(Flow& flow, const Set& set, const MeterPoint& point) {
    std::vector<std::string> options{"the camera"}, words{"camera"};
    for (const Light& light : set.lights) {
        options.push_back(light.id);
        words.push_back(light.id);
    }
    options.emplace_back("a direction");
    words.emplace_back();
    const std::string now = point.toward == "camera" ? options.front()
                            : point.toward.empty()   ? options.back()
                                                     : point.toward;
    const std::string toward = meter_path(point.id, "toward");
    const int picked = choice_row(flow, "faces", toward, now, options);
    if (picked >= 0) flow.out.perform(set_word(toward, words[static_cast<std::size_t>(picked)]));
    if (!point.toward.empty()) return;
    number_row(flow, {"turned from the camera's side",
                      meter_path(point.id, "azimuth_deg"),
                      point.azimuth_deg,
                      {Dimension::angle, "°", -360, 360, 0, {}},
                      0.5,
                      {}});
    number_row(flow, {"tilted up",
                      meter_path(point.id, "elevation_deg"),
                      point.elevation_deg,
                      {Dimension::angle, "°", -90, 90, 0, {}},
                      0.5,
                      {}});
}

void point_rows(Flow& flow, const Set& set, const MeterPoint& point) {
    place_rows(flow, point);
    facing_rows(flow, set, point);
    const std::string path = meter_path(point.id, "receptor");
    const bool flat = point.receptor == ReceptorKind::flat;
    if (toggle_row(flow, "receptor", path, true, flat ? "flat" : "dome", ""))
        flow.out.perform(set_word(path, flat ? "dome" : "flat"));
}

std::string light_words(const LightAtPoint& light, bool without) {
    if (without) return light.without.reading;
    if (!light.alone.f_number) return light.alone.reading;
    return light.alone.reading + ", " + number_text(100.0 * light.share, 0) + " %";
}

void reading_rows(Flow& flow, const PointReading& reading, MeterDesk& desk) {
    if (!reading.facing) {
        note(flow, "There is no light " + reading.point.toward + " for it to face.",
             flow.colour().caution);
        return;
    }
    text_row(flow, "all together", reading.together.reading);
    if (reading.corrected) text_row(flow, "as measured", reading.corrected->reading);
    static const std::vector<std::string> ways{"each alone", "all without each"};
    const int picked =
        choice_row(flow, "light by light", "meter.ways", ways[desk.without ? 1 : 0], ways);
    if (picked >= 0) desk.without = picked == 1;
    for (const LightAtPoint& light : reading.lights)
        text_row(flow, (desk.without ? "without " : "") + light.light,
                 light_words(light, desk.without));
    if (reading.room_light_share > 0.005)
        text_row(flow, "room light", number_text(100.0 * reading.room_light_share, 0) + " %");
}

void ratio_rows(Flow& flow, const ExposureReview& e) {
    if (!e.ratio_key_to_fill) return;
    text_row(flow, "key : fill (K:F)",
             number_text(*e.ratio_key_to_fill, 1) + ":1, " + say::stops(*e.stops_key_over_fill));
    text_row(flow, "lit : shadow ((K+F):F)",
             number_text(*e.ratio_lit_to_shadow, 1) + ":1, " + say::stops(*e.stops_lit_to_shadow));
}

std::string signed_stops(double stops) {
    const std::string sign = std::abs(stops) < 0.05 ? "" : stops > 0.0 ? "+" : "−";
    return sign + say::stops(stops);
}

void measured_rows(Flow& flow, const Set& set, const Review* review) {
    if (set.measured.empty()) return;
    note(flow, "Measured, and how far from predicted", flow.colour().text3);
    if (review != nullptr)
        for (const MeasuredRow& row : review->measured.rows)
            text_row(flow,
                     row.measured.light +
                         (row.measured.at == face_point ? "" : " at " + row.measured.at),
                     meter_notation(row.measured.f_number) + ", " +
                         (row.stops ? signed_stops(*row.stops) : row.problem));
    const float row = flow.y;
    if (review != nullptr && !review->measured.corrections.empty() &&
        link(flow, "meter calibrate", "calibrate the heads by it", flow.left))
        flow.out.perform(calibrate_heads(set, review->measured));
    bool forget = false;
    link_right(flow.pen, "meter forget", "forget them", flow.right, row + 0.5F * flow.row_height(),
               forget);
    flow.y = row + flow.row_height();
    if (forget) flow.out.perform(set_measured("forget measured readings", {}));
}

/// What was understood of the pasted list, before it is taken in.
void pasted_rows(Flow& flow, const Set& set, MeterDesk& desk) {
    if (desk.pasted.empty()) {
        if (link(flow, "meter paste", "paste real readings", flow.left)) {
            const char* text = ImGui::GetClipboardText();
            desk.pasted = text != nullptr && text[0] != '\0' ? text : " ";
        }
        flow.y += flow.row_height();
        note(flow, "One a line, such as: key f/8 + 3/10 at face", flow.colour().text3);
        return;
    }
    const auto readings = parse_reading_list(desk.pasted, set);
    const float row_height = flow.row_height();
    if (!readings) {
        note(flow, readings.problem().message() + ".", flow.colour().caution);
        if (link(flow, "meter leave", "leave it", flow.left)) desk.pasted.clear();
        flow.y += row_height;
        return;
    }
    for (const MeasuredReading& reading : readings.value())
        text_row(flow, reading.light + " at " + reading.at,
                 meter_notation(reading.f_number) +
                     (reading.receptor == ReceptorKind::flat ? ", flat" : ", dome"));
    const float row = flow.y;
    const bool take = link(flow, "meter take", "take them in", flow.left);
    bool leave = false;
    link_right(flow.pen, "meter leave", "leave them", flow.right, row + 0.5F * row_height, leave);
    flow.y = row + row_height;
    if (take)
        flow.out.perform(
            set_measured("measured readings", with_readings(set, readings.value()).measured));
    if (take || leave) desk.pasted.clear();
}

} // namespace

void meter_section(Flow& flow, const Shown& shown, OpenSections& open) {
    MeterDesk& desk = open.meter_desk;
    const Set& set = shown.set();
    // A point that was just added, or undone, is not in the set: the face meanwhile.
    const MeterPoint* point = point_of(set, desk.point);
    const std::string now = point != nullptr ? desk.point : face_point;
    const PointReading* reading = reading_of(shown.review, now);
    if (!section(flow, "Meter", reading != nullptr ? reading->together.reading : "", open.meter))
        return;
    which_point(flow, shown, now, desk);
    if (point != nullptr) point_rows(flow, set, *point);
    if (reading != nullptr) reading_rows(flow, *reading, desk);
    if (shown.review != nullptr && now == face_point) ratio_rows(flow, shown.review->exposure);
    flow.skip(4);
    measured_rows(flow, set, shown.review);
    pasted_rows(flow, set, desk);
    flow.skip(6);
}

void spot_section(Flow& flow, const Shown& shown, OpenSections& open) {
    if (shown.review == nullptr) return;
    const std::vector<SpotReading>& spots = shown.review->spots;
    const std::string summary = spots.empty() ? "" : spots.front().dial.reading;
    if (!section(flow, "Spot meter", summary, open.spots)) return;
    for (const SpotReading& spot : spots)
        text_row(flow, spot.place,
                 !spot.note.empty() ? spot.note
                 : spot.stops_from_camera
                     ? spot.dial.reading + ", " + signed_stops(*spot.stops_from_camera)
                     : "no light");
    note(flow, "Reflected light from the camera; stops from what it is set to.",
         flow.colour().text3);
    flow.skip(6);
}

} // namespace keystead::ui
