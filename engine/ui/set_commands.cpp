#include "engine/ui/set_commands.h"

#include "sim/meter/falloff_table.h"
#include "sim/set/set_json.h"
#include "sim/studio/file_paths.h"

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

namespace keystead::ui {

namespace {

using Json = nlohmann::ordered_json;

const char* word_of(BagPlace place) {
    if (place == BagPlace::column) return "column";
    return place == BagPlace::tail ? "tail" : "leg";
}

Json bag_json(const Bag& bag) {
    Json json;
    if (!bag.from.empty()) json["from"] = bag.from;
    json["mass_kg"] = tidy(bag.mass_kg);
    json["place"] = word_of(bag.place);
    json["leg"] = bag.leg;
    json["at_m"] = tidy(bag.at_m);
    json["hanging"] = bag.hanging;
    for (const auto& [name, text] : bag.extras) json[name] = Json::parse(text, nullptr, false);
    return json;
}

} // namespace

std::string light_path(const std::string& id, const std::string& rest) {
    return "lights[" + id + "]." + rest;
}

std::string panel_path(const std::string& id, const std::string& rest) {
    return "panels[" + id + "]." + rest;
}

std::string prop_path(const std::string& id, const std::string& rest) {
    return "props[" + id + "]." + rest;
}

std::string meter_path(const std::string& id, const std::string& rest) {
    return "meter_points[" + id + "]." + rest;
}

Command set_flag(std::string path, bool value) {
    return SetValue{std::move(path), value ? "true" : "false"};
}

Command set_word(std::string path, const std::string& value) {
    // A file's name need not be UTF-8; the set then says that it is not there.
    return SetValue{std::move(path), json_line(value)};
}

Command set_nothing(std::string path) {
    return SetValue{std::move(path), "null"};
}

Command set_from(std::string path, const std::string& entry) {
    return SetValue{std::move(path), Json{{"from", entry}}.dump()};
}

std::vector<Command> path_commands(const Set& set, const std::filesystem::path& from,
                                   const std::filesystem::path& to) {
    std::vector<Command> commands;
    for (const MovedPath& moved : moved_paths(set, from, to))
        commands.push_back(set_word(moved.path, moved.file));
    return commands;
}

Command together(std::string label, std::vector<Command> commands) {
    return Batch{std::move(label), std::move(commands)};
}

std::string bag_text(const Bag& bag) {
    return bag_json(bag).dump();
}

Command set_bags(const std::string& light, const std::vector<Bag>& bags) {
    Json list = Json::array();
    for (const Bag& bag : bags) list.push_back(bag_json(bag));
    return SetValue{light_path(light, "support.bags"), list.dump()};
}

Command set_counterweight(const std::string& light, const Counterweight& counterweight) {
    Json json;
    if (!counterweight.from.empty()) json["from"] = counterweight.from;
    json["mass_kg"] = tidy(counterweight.mass_kg);
    json["place_m"] = tidy(counterweight.place_m);
    return SetValue{light_path(light, "support.arm.counterweight"), json.dump()};
}

Command set_meter_points(const std::string& label, const std::vector<MeterPoint>& points) {
    Set holder;
    holder.meter_points = points;
    return together(label, {SetValue{"meter_points", set_to_json(holder)["meter_points"].dump()}});
}

Command set_measured(const std::string& label, const std::vector<MeasuredReading>& readings) {
    Set holder;
    holder.measured = readings;
    return together(label, {SetValue{"measured", set_to_json(holder)["measured"].dump()}});
}

Command calibrate_heads(const Set& set, const MeasuredTable& measured) {
    std::vector<Command> commands;
    for (const LightCorrection& correction : measured.corrections) {
        const std::optional<std::size_t> index = light_index(set, correction.light);
        if (!index) continue;
        Light light = set.lights[*index];
        light.head.calibration = calibration_changed_by(set, light, correction.stops);
        commands.emplace_back(SetValue{light_path(light.id, "head.calibration"),
                                       light_to_json(light)["head"]["calibration"].dump()});
    }
    return together("calibrate by measured readings", std::move(commands));
}

Command change_support(const Light& light, const CatalogueEntry<Support>& entry) {
    const Support &old = light.support, &made = entry.value;
    Json json;
    json["from"] = entry.id;
    json["base"] = {{"position_m", {tidy(old.base.position_m.x), tidy(old.base.position_m.y)}},
                    {"turn_deg", tidy(old.base.turn_deg)}};
    json["column"] = {{"height_m", tidy(std::clamp(old.column.height_m, made.column.min_height_m,
                                                   made.column.max_height_m))}};
    if (made.arm && old.arm)
        json["arm"] = {
            {"reach_m",
             tidy(std::clamp(old.arm->reach_m, made.arm->min_reach_m, made.arm->max_reach_m))},
            {"rise_deg",
             tidy(std::clamp(old.arm->rise_deg, made.arm->min_rise_deg, made.arm->max_rise_deg))},
            {"turn_deg", tidy(old.arm->turn_deg)}};
    Json bags = Json::array();
    for (const Bag& bag : old.bags)
        if (bag.place != BagPlace::tail || made.arm) bags.push_back(bag_json(bag));
    json["bags"] = bags;
    return together("support of " + light.id,
                    {SetValue{light_path(light.id, "support"), json.dump()}});
}

} // namespace keystead::ui
