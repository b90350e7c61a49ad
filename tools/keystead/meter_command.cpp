#include "sim/meter/falloff_table.h"
#include "sim/meter/reading_list.h"
#include "sim/review/report_meter.h"
#include "sim/set/set_io.h"
#include "tools/keystead/commands.h"
#include "tools/keystead/common.h"
#include "tools/keystead/exit_codes.h"

#include <algorithm>
#include <cstdio>
#include <fstream>
#include <iostream>
#include <iterator>

namespace keystead {

namespace {

/// All of a list of readings, from a file or, for "-", from standard input.
Result<std::string> list_text(const std::string& file) {
    constexpr std::size_t most_bytes = 1U << 20U;
    std::ifstream stream(file, std::ios::binary);
    std::istream& from = file == "-" ? std::cin : stream;
    if (!from) return Problem{file, "", "cannot be read"};
    std::string text(most_bytes + 1, '\0');
    from.read(text.data(), std::streamsize(text.size()));
    text.resize(static_cast<std::size_t>(from.gcount()));
    if (text.size() > most_bytes)
        return Problem{file, "", "is more than 1 MiB: not a list of readings"};
    return text;
}

/// The set with the list's readings in it; empty after saying what is wrong.
std::optional<Set> with_list(const Set& set, const std::string& file) {
    const Result<std::string> text = list_text(file);
    if (!text) {
        complain(text.problem().message());
        return {};
    }
    const auto readings = parse_reading_list(text.value(), set);
    if (!readings) {
        complain(file + ": " + readings.problem().message());
        return {};
    }
    return with_readings(set, readings.value());
}

bool keep_point(Review& review, const std::string& id) {
    const auto other = [&](const PointReading& point) { return point.point.id != id; };
    std::string names;
    for (const PointReading& point : review.meter) names += " " + point.point.id;
    std::erase_if(review.meter, other);
    if (!review.meter.empty()) return true;
    complain("--at: there is no meter point " + id + "; this set has" + names);
    return false;
}

std::string text_of(const Review& review) {
    return meter_points_text(review) + "\n" + ratio_text(review.exposure) + "\n" +
           shutter_text(review.shutter) + "\n" + spots_text(review.spots) +
           (review.measured.rows.empty() ? "" : "\n") + measured_text(review);
}

std::string json_of(const Review& review) {
    Json json;
    json["set"] = review.set;
    json["version"] = 1;
    json["meter"] = meter_points_json(review.meter);
    json["ratio"] = ratio_json(review.exposure);
    json["shutter"] = shutter_json(review.shutter);
    json["spots"] = spots_json(review.spots);
    json["measured"] = measured_json(review.measured);
    return print_json(json);
}

/// The set whose lights give what was measured of them.
Set calibrated(Set set, const MeasuredTable& measured) {
    for (const LightCorrection& correction : measured.corrections) {
        Light& light = set.lights[*light_index(set, correction.light)];
        light.head.calibration = calibration_changed_by(set, light, correction.stops);
    }
    return set;
}

} // namespace

int meter_command(const MeterArguments& arguments) {
    std::optional<Set> set = load_or_complain(arguments.set);
    if (set && !arguments.measured.empty()) set = with_list(*set, arguments.measured);
    if (!set) return exit_code::input;
    const std::shared_ptr<const Studio> studio = studio_or_complain(*set, arguments.set);
    if (studio == nullptr) return exit_code::input;
    Review review = review_set(*studio, {.margins = false});
    if (arguments.calibrate) set = calibrated(*set, review.measured);
    if (!arguments.at.empty() && !keep_point(review, arguments.at)) return exit_code::input;
    const std::string text = arguments.json ? json_of(review) : text_of(review);
    std::fwrite(text.data(), 1, text.size(), stdout);
    if (arguments.into.empty()) return exit_code::done;
    if (const Outcome problem = save_set(*set, arguments.into)) {
        complain(problem->message());
        return exit_code::input;
    }
    return exit_code::done;
}

} // namespace keystead
