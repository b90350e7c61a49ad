#include "sim/meter/reading_list.h"

#include "sim/light/stops.h"
#include "sim/meter/meter_point.h"

#include <algorithm>
#include <optional>
#include <string>

namespace keystead {

namespace {

constexpr std::size_t most_readings = 512; // what the document holds

struct Line {
    std::string_view text; ///< without comment, trimmed
    std::size_t number = 0;
    bool empty_cell = false; ///< ends with a separator of cells
};

bool is_gap(char c) {
    return std::string_view(" \t;:=\r").find(c) != std::string_view::npos;
}

std::string_view trimmed(std::string_view text) {
    while (!text.empty() && is_gap(text.front())) text.remove_prefix(1);
    while (!text.empty() && is_gap(text.back())) text.remove_suffix(1);
    return text;
}

Problem refuse(const Line& line, const std::string& why) {
    constexpr std::size_t most_shown = 60;
    return {"line " + std::to_string(line.number),
            "\"" + std::string(line.text.substr(0, most_shown)) + "\"", why};
}

template <class Things>
std::vector<std::string> ids_of(const Things& things, std::vector<std::string> ids = {}) {
    for (const auto& thing : things) ids.push_back(thing.id);
    return ids;
}

std::string listed(const std::vector<std::string>& ids) {
    std::string text;
    for (const std::string& id : ids) text += (text.empty() ? "" : ", ") + id;
    return text.empty() ? "none" : text;
}

/// Takes the longest of `ids` that `text` starts with off its front: ids may hold spaces.
std::string take_id(std::string_view& text, const std::vector<std::string>& ids) {
    std::string best;
    for (const std::string& id : ids) {
        const bool whole =
            text.size() == id.size() ||
            (text.size() > id.size() && (is_gap(text[id.size()]) || text[id.size()] == ','));
        if (text.starts_with(id) && whole && id.size() > best.size()) best = id;
    }
    text.remove_prefix(best.size());
    if (!best.empty() && text.starts_with(',')) text.remove_prefix(1);
    text = trimmed(text);
    return best;
}

std::string_view take_word(std::string_view& text) {
    const auto gap = std::find_if(text.begin(), text.end(), is_gap);
    const auto length = static_cast<std::size_t>(gap - text.begin());
    const std::string_view word = text.substr(0, length);
    text = trimmed(text.substr(length));
    return word;
}

/// What follows the light's id: the f-number's words joined, place and receptor into `reading`.
Result<std::string> read_words(std::string_view rest, const Line& line, const Set& set,
                               MeasuredReading& reading) {
    const std::vector<std::string> places = ids_of(set.meter_points, {face_point});
    std::string number;
    bool told = false; // place or receptor: the number is over
    while (!rest.empty()) {
        const std::string_view word = take_word(rest);
        if (word == "at") {
            reading.at = take_id(rest, places);
            if (reading.at.empty())
                return refuse(line,
                              "names no meter point after \"at\"; this set has " + listed(places));
        } else if (word == "dome" || word == "flat") {
            reading.receptor = word == "dome" ? ReceptorKind::dome : ReceptorKind::flat;
        } else if (told) {
            return refuse(line, "goes on with \"" + std::string(word) +
                                    "\" where \"at POINT\", flat, dome or nothing is expected");
        } else {
            number += (number.empty() ? "" : " ") + std::string(word);
            continue;
        }
        told = true;
    }
    return number;
}

/// Empty: a light whose cell in a table was left empty.
Result<std::optional<MeasuredReading>> parse_line(const Line& line, const Set& set) {
    const std::vector<std::string> lights = ids_of(set.lights);
    std::string_view rest = line.text;
    MeasuredReading reading;
    reading.light = take_id(rest, lights);
    if (reading.light.empty())
        return refuse(line, "does not start with a light's id; this set has " + listed(lights));
    const Result<std::string> number = read_words(rest, line, set, reading);
    if (!number) return number.problem();
    if (number.value().empty() && line.empty_cell) return std::optional<MeasuredReading>{};
    if (number.value().empty())
        return refuse(line, "has no reading; expected e.g. f/8, f/8 + 3/10 or 8.0 3");
    const Result<double> f_number = parse_f_number(number.value());
    if (!f_number) return refuse(line, f_number.problem().message());
    reading.f_number = f_number.value();
    return std::optional(reading);
}

/// The next line of `text`, which loses it; comments are cut.
Line next_line(std::string_view& text, std::size_t number) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    std::string_view all = text.substr(0, end);
    text.remove_prefix(std::min(end + 1, text.size()));
    all = all.substr(0, all.find('#'));
    Line line{trimmed(all), number, false};
    const std::string_view after =
        all.substr(static_cast<std::size_t>(line.text.data() + line.text.size() - all.data()));
    line.empty_cell = after.find_first_of(";\t") != std::string_view::npos;
    return line;
}

} // namespace

Result<std::vector<MeasuredReading>> parse_reading_list(std::string_view text, const Set& set) {
    constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
    if (text.starts_with(byte_order_mark)) text.remove_prefix(byte_order_mark.size());
    std::vector<MeasuredReading> readings;
    for (std::size_t number = 1; !text.empty(); ++number) {
        const Line line = next_line(text, number);
        if (line.text.empty()) continue;
        const auto reading = parse_line(line, set);
        if (!reading) return reading.problem();
        if (!reading.value()) continue;
        readings.push_back(*reading.value());
        if (readings.size() > most_readings)
            return refuse(line, "is one reading more than a set holds (" +
                                    std::to_string(most_readings) + ")");
    }
    if (readings.empty())
        return Problem{"readings", "", "no line holds one; expected e.g. \"key f/8 + 3/10\""};
    return readings;
}

Set with_readings(const Set& set, const std::vector<MeasuredReading>& readings) {
    Set changed = set;
    for (const MeasuredReading& reading : readings) {
        const auto same = std::find_if(
            changed.measured.begin(), changed.measured.end(), [&](const MeasuredReading& old) {
                return old.light == reading.light && old.at == reading.at &&
                       old.receptor == reading.receptor;
            });
        if (same == changed.measured.end())
            changed.measured.push_back(reading);
        else
            same->f_number = reading.f_number;
    }
    return changed;
}

} // namespace keystead
