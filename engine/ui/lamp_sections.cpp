#include "engine/ui/set_commands.h"
#include "engine/ui/side_panel.h"
#include "engine/ui/words.h"

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

void grid_row(Flow& flow, const Light& light) {
    const auto& grids = catalogue().grids;
    const std::string path = light_path(light.id, "modifier.grid");
    const auto& grid = light.modifier.grid;
    const std::string now = !grid                ? "none"
                            : grid->from.empty() ? grid_words(*grid)
                                                 : entry_name(grid->from);
    const int picked = choice_row(flow, "grid", path, now, names_of(grids, "none"));
    if (picked == 0 && grid) flow.out.perform(set_nothing(path));
    if (picked > 0)
        flow.out.perform(set_from(path, grids[static_cast<std::size_t>(picked) - 1].id));
}

void gel_rows(Flow& flow, const Light& light) {
    const std::string path = light_path(light.id, "modifier.gel");
    const auto& gel = light.modifier.gel;
    static const std::vector<std::string> options{"none", "half warming", "full warming",
                                                  "half cooling", "full cooling"};
    // Mired shifts of the usual correction gels; transmission of the same (common practice).
    static constexpr double shifts[] = {0.0, 81.0, 159.0, -68.0, -131.0},
                            passes[] = {1.0, 0.73, 0.58, 0.52, 0.34};
    const std::string now = gel ? number_text(gel->mired_shift, 0) + " mired" : "none";
    const int picked = choice_row(flow, "gel", path, now, options);
    if (picked == 0 && gel) flow.out.perform(set_nothing(path));
    if (picked > 0)
        flow.out.perform(SetValue{
            path, nlohmann::json{{"mired_shift", shifts[picked]}, {"transmission", passes[picked]}}
                      .dump()});
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

void modifier_section(Flow& flow, const Light& light, OpenSections& open) {
    if (!section(flow, "Modifier", modifier_words(light.modifier), open.modifier)) return;
    const Modifier& m = light.modifier;
    const auto& all = catalogue().modifiers;
    const std::string now = m.from.empty() ? modifier_words(m) : entry_name(m.from);
    const int picked =
        choice_row(flow, "kind", light_path(light.id, "modifier"), now, names_of(all));
    if (picked >= 0)
        flow.out.perform(
            set_from(light_path(light.id, "modifier"), all[static_cast<std::size_t>(picked)].id));
    if (m.shape != ModifierShape::bare) {
        number_row(flow, {"width",
                          light_path(light.id, "modifier.width_m"),
                          m.width_m,
                          {Dimension::length, "m", 0.01, 4, 2, {}},
                          0.01,
                          {}});
        number_row(flow, {"height",
                          light_path(light.id, "modifier.height_m"),
                          m.height_m,
                          {Dimension::length, "m", 0.01, 4, 2, {}},
                          0.01,
                          {}});
        number_row(flow, {"turn",
                          light_path(light.id, "modifier.turn_deg"),
                          m.turn_deg,
                          {Dimension::angle, "°", -180, 180, 0, {}},
                          0.5,
                          {}});
    }
    grid_row(flow, light);
    gel_rows(flow, light);
    number_row(flow, {"mass",
                      light_path(light.id, "modifier.mass_kg"),
                      m.mass_kg,
                      {Dimension::mass, "kg", 0, 20, 1, {}},
                      0.05,
                      {}});
    flow.skip(6);
}

void aim_section(Flow& flow, const Light& light, OpenSections& open) {
    if (!section(flow, "Aim", aim_words(light.aim), open.aim)) return;
    std::vector<std::string> options;
    std::string now = aim_words(Aim{light.aim.kind, light.aim.landmark, {}, 0, 0, 0, {}});
    for (const LandmarkName& name : landmark_names()) options.emplace_back(name.shown);
    const int picked = choice_row(flow, "at", light_path(light.id, "aim.landmark"), now, options);
    if (picked >= 0) {
        const char* word = landmark_names()[static_cast<std::size_t>(picked)].word;
        flow.out.perform(
            together("aim of " + light.id, {set_word(light_path(light.id, "aim.kind"), "landmark"),
                                            set_word(light_path(light.id, "aim.landmark"), word)}));
    }
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
