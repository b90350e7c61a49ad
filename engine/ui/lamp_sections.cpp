#include "engine/ui/set_commands.h"
#include "engine/ui/side_panel.h"
#include "engine/ui/words.h"
#include "sim/base/frames.h"

#include <nlohmann/json.hpp>

namespace keystead::ui {

namespace {

template <class T>
std::vector<std::string> names_of(const std::vector<CatalogueEntry<T>>& entries,
                                  const char* first = nullptr) {
    std::vector<std::string> names;
    if (first != nullptr) names.emplace_back(first);
    for (const auto& entry : entries) names.push_back(entry.name);
    return names;
}

/// The document keeps stops below full; photographers say 0 for full and −2 for two stops down.
void power_row(Flow& flow, const Light& light) {
    const std::string path = light_path(light.id, "head.power_stops_below");
    number_row(flow,
               {"power",
                path,
                -light.head.power_stops_below,
                {Dimension::stops, "stop", -light.head.range_stops, 0, 1, {}},
                0.02,
                light.head.power_stops_below <= 0.0 ? "full power" : "the least it can do"},
               [&](double stops) { return set_number(path, -stops); });
}

} // namespace

void head_section(Flow& flow, const Light& light, OpenSections& open) {
    if (!section(flow, "Head", head_words(light.head), open.head)) return;
    const auto& heads = catalogue().heads;
    const std::string now = light.head.from.empty() ? "own values" : entry_name(light.head.from);
    const int picked = choice_row(flow, "lamp", light_path(light.id, "head"), now, names_of(heads));
    if (picked >= 0)
        flow.out.perform(
            set_from(light_path(light.id, "head"), heads[static_cast<std::size_t>(picked)].id));
    if (light.head.kind == HeadKind::flash)
        number_row(flow, {"energy",
                          light_path(light.id, "head.energy_ws"),
                          light.head.energy_ws,
                          {Dimension::energy, "Ws", 1, 10000, 0, {}},
                          5.0,
                          {}});
    else
        number_row(flow, {"flux",
                          light_path(light.id, "head.lumens"),
                          light.head.lumens,
                          {Dimension::flux, "lm", 1, 1e6, 0, {}},
                          50.0,
                          {}});
    power_row(flow, light);
    number_row(flow, {"colour",
                      light_path(light.id, "head.colour_k"),
                      light.head.colour_k,
                      {Dimension::temperature, "K", 1500, 20000, 0, {}},
                      20.0,
                      {}});
    number_row(flow, {"mass",
                      light_path(light.id, "head.mass_kg"),
                      light.head.mass_kg,
                      {Dimension::mass, "kg", 0.02, 40, 1, {}},
                      0.05,
                      {}});
    flow.skip(6);
}

namespace {

/// Landmarks, then what keeps its aim when the sitter moves.
void aim_choice(Flow& flow, const Light& light, const SupportPose& pose, const Vec3& looks_at_m) {
    std::vector<std::string> options;
    const std::string now = aim_words(Aim{light.aim.kind, light.aim.landmark, {}, 0, 0, 0, {}});
    for (const LandmarkName& name : landmark_names()) options.emplace_back(name.shown);
    options.emplace_back("this point of the room");
    options.emplace_back("this direction, wherever it stands");
    const int picked = choice_row(flow, "at", light_path(light.id, "aim.landmark"), now, options);
    if (picked < 0) return;
    const auto index = static_cast<std::size_t>(picked);
    const auto aimed = [&](const char* kind, std::vector<Command> more) {
        more.insert(more.begin(), set_word(light_path(light.id, "aim.kind"), kind));
        flow.out.perform(together("aim of " + light.id, std::move(more)));
    };
    if (index < landmark_names().size())
        return aimed("landmark", {set_word(light_path(light.id, "aim.landmark"),
                                           landmark_names()[index].word)});
    if (index == landmark_names().size())
        return aimed("point", {set_point(light_path(light.id, "aim.point_m"), looks_at_m)});
    const Angles way = angles_of(pose.beam_direction);
    aimed("angles", {set_number(light_path(light.id, "aim.azimuth_deg"),
                                wrapped_deg(way.azimuth_deg + light.aim.feather_deg)),
                     set_number(light_path(light.id, "aim.elevation_deg"), way.elevation_deg)});
}

} // namespace

void aim_section(Flow& flow, const Light& light, const SupportPose& pose, const Vec3& looks_at_m,
                 OpenSections& open) {
    if (!section(flow, "Aim", aim_words(light.aim), open.aim)) return;
    aim_choice(flow, light, pose, looks_at_m);
    if (light.aim.kind == AimKind::point)
        point_rows(flow, light_path(light.id, "aim.point_m"), light.aim.point_m, "toward camera");
    if (light.aim.kind == AimKind::angles) {
        number_row(flow, {"azimuth",
                          light_path(light.id, "aim.azimuth_deg"),
                          light.aim.azimuth_deg,
                          {Dimension::angle, "°", -360, 360, 0, {}},
                          0.5,
                          {}});
        number_row(flow, {"elevation",
                          light_path(light.id, "aim.elevation_deg"),
                          light.aim.elevation_deg,
                          {Dimension::angle, "°", -90, 90, 0, {}},
                          0.5,
                          {}});
    }
    number_row(flow, {"feathered",
                      light_path(light.id, "aim.feather_deg"),
                      light.aim.feather_deg,
                      {Dimension::angle, "°", -90, 90, 0, {}},
                      0.5,
                      {}});
    flow.skip(6);
}

} // namespace keystead::ui
