#include "sim/light/stops.h"
#include "sim/meter/falloff_table.h"
#include "sim/meter/meter_point.h"
#include "sim/review/report_parts.h"
#include "sim/review/say.h"
#include "tools/keystead/commands.h"
#include "tools/keystead/common.h"
#include "tools/keystead/exit_codes.h"

#include <cstdio>

namespace keystead {

namespace {

std::string text_of(const Light& light, const FalloffTable& table) {
    std::string text = light.id + ", on its axis\n  " + padded("distance", 12) +
                       padded("reading", 16) + padded("inverse square", 18) + "stops from it\n";
    for (const FalloffRow& row : table.rows)
        text += "  " + padded(say::with_unit(row.distance_m, 2, "m"), 12) +
                padded(meter_notation(row.f_number), 16) +
                padded(meter_notation(row.rule_f_number), 18) +
                say::signed_number(row.stops_from_rule, 2) + "\n";
    return text +
           "  (Flat receptor facing the light, which is alone; nothing bounced. The rule "
           "starts from the reading at " +
           say::with_unit(table.reference_m, 2, "m") + ".)\n" + table.why + "\n";
}

std::string json_of(const Light& light, const FalloffTable& table) {
    Json json;
    json["light"] = light.id;
    json["reference_m"] = tidy(table.reference_m);
    json["rows"] = Json::array();
    for (const FalloffRow& row : table.rows)
        json["rows"].push_back(Json{{"distance_m", tidy(row.distance_m)},
                                    {"f_number", tidy(row.f_number)},
                                    {"reading", meter_notation(row.f_number)},
                                    {"rule_f_number", tidy(row.rule_f_number)},
                                    {"stops_from_rule", tidy(row.stops_from_rule)}});
    json["why"] = table.why;
    return print_json(json);
}

/// Puts the reading of `--read` and `--at` into the light's head.
Outcome calibrate(const Set& set, const FalloffArguments& arguments, Light& light) {
    if (arguments.read.empty()) return {};
    const Result<double> f_number = parse_f_number(arguments.read);
    if (!f_number) return Problem{"--read", "", f_number.problem().message()};
    light.head.calibration = calibration_from(set, light, f_number.value(), arguments.at_m);
    return {};
}

} // namespace

int falloff_command(const FalloffArguments& arguments) {
    const std::optional<Set> set = load_or_complain(arguments.set);
    if (!set) return exit_code::input;
    const std::optional<std::size_t> index = light_index(*set, arguments.light);
    if (!index) {
        std::string names;
        for (const Light& light : set->lights) names += " " + light.id;
        complain("--light: there is no light " + arguments.light + "; this set has" + names);
        return exit_code::input;
    }
    if (arguments.to_m <= arguments.from_m) {
        complain("--to: " + number_text(arguments.to_m) + " is not beyond --from " +
                 number_text(arguments.from_m));
        return exit_code::input;
    }
    Light light = set->lights[*index];
    if (const Outcome problem = calibrate(*set, arguments, light)) {
        complain(problem->message());
        return exit_code::input;
    }
    const double reference_m =
        light.head.calibration ? light.head.calibration->distance_m : arguments.from_m;
    const FalloffTable table = falloff_table(*set, light, reference_m,
                                             round_distances_m(arguments.from_m, arguments.to_m));
    const std::string text = arguments.json ? json_of(light, table) : text_of(light, table);
    std::fwrite(text.data(), 1, text.size(), stdout);
    return exit_code::done;
}

} // namespace keystead
